import { printableOf } from './io.ts'
import { CommandError } from './port.ts'

/** What a column can be taken for, with the headings by which it is known: in lower case, signs as spaces. The
 * name itself is one too. */
const headings = {
  date: ['day'],
  session: ['session id'],
  title: ['session title', 'name of the day'],
  part: [],
  exercise: ['lift', 'movement'],
  reps: ['rep', 'repetitions'],
  groups: [],
  side: ['sides'],
  load: ['weight'],
  kg: ['load kg', 'weight kg', 'kilograms'],
  lb: ['load lb', 'weight lb', 'load lbs', 'weight lbs', 'lbs', 'pounds'],
  unit: ['units', 'load unit', 'weight unit'],
  load_kind: [],
  time: ['seconds', 's', 'duration', 'split', 'time s'],
  distance: [],
  meters: ['m', 'metres', 'distance m'],
  km: ['kilometers', 'kilometres', 'distance km'],
  mi: ['mile', 'miles', 'distance mi'],
  heart_rate: ['hr', 'average heart rate', 'average hr', 'avg hr'],
  heart_rate_max: ['max hr', 'hr max', 'max heart rate'],
  rpe: [],
  rir: [],
  failed: [],
  note: ['notes', 'comment', 'comments', 'remark'],
  pain: [],
} as const satisfies Record<string, readonly string[]>

export type Field = keyof typeof headings

export const fields = Object.keys(headings) as Field[]

export interface Columns {
  /** What is read from which column, by its index. */
  taken: ReadonlyMap<Field, number>
  /** Indexes of the columns that are not used. */
  unused: number[]
}

/** What each column of a table is taken for.
 * @param names the headings; @param maps `column=field` as the user wrote them, `column=-` for a column to leave out
 * @throws CommandError for a map that names no column or no field */
export function columnsOf(names: readonly string[], maps: readonly string[]): Columns {
  const said = new Map(maps.map((map) => mapped(map, names)))
  const taken = new Map<Field, number>()
  for (const [index, field] of said) if (field !== null) taken.set(field, index)
  names.forEach((name, index) => {
    const field = said.has(index) ? null : fieldOf(name)
    if (field !== null && !taken.has(field)) taken.set(field, index)
  })
  // The load as it was typed says more than its kilograms.
  if (taken.has('load') && !said.has(taken.get('kg') ?? -1)) taken.delete('kg')
  const used = new Set(taken.values())
  return { taken, unused: names.flatMap((_, index) => (used.has(index) ? [] : [index])) }
}

function mapped(map: string, names: readonly string[]): [number, Field | null] {
  const [, column = '', field = ''] = /^(.*)=\s*([^=]*)$/s.exec(map) ?? []
  const index = names.findIndex((name) => name.trim().toLowerCase() === column.trim().toLowerCase())
  if (column.trim() === '' || index === -1) {
    const known = names.map((name) => `"${printableOf(name.trim())}"`).join(', ')
    throw wrong(map, `names no column of the file: ${known}. Write --map COLUMN=FIELD`)
  }
  const name = field.trim().toLowerCase()
  if (name === '-') return [index, null]
  const found = fields.find((each) => each === name)
  if (found !== undefined) return [index, found]
  throw wrong(map, `names no field. Write one of ${fields.join(', ')}, or - to leave the column out`)
}

function wrong(map: string, why: string): CommandError {
  return new CommandError('command_line', `"${printableOf(map)}" ${why}.`, { exit: 2 })
}

function fieldOf(name: string): Field | null {
  const words = name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
  const key = words.replaceAll(' ', '_')
  return fields.find((field) => field === key || headings[field].some((each) => each === words)) ?? null
}
