import { plainOf } from './plain.ts'

/** Text that GitHub-flavoured Markdown shows as it stands, at the beginning of a block as in a cell: it is no
 * heading, list, link, mention of an address, mark-up or end of a cell. */
export function escaped(text: string): string {
  return plainOf(text)
    .trim()
    .replace(/[\\`*_{}[\]<>#|~$]/g, '\\$&')
    .replace(/&(?=[#\w])/g, '\\&')
    .replace(/:(?=\/\/)/g, '\\:')
    .replace(/(?<=\w)@(?=\w)/g, '\\@')
    .replace(/\bwww(?=\.)/gi, '$&\\')
    .replace(/^[-+=]/, '\\$&')
    .replace(/^(\d+)(?=[.)])/, '$1\\')
}
