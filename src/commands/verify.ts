import { verifyLogbook } from '../logbook/verify.ts'
import { counted } from '../units/decimal.ts'
import { type CommandInput, type ExitCode, fitted, show } from './command.ts'

/** Reads every file of the logbook and reports damage; exit status 3 if there is any. Repairs and seals only on
 * request. */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, flags } = input
  const verification = verifyLogbook(input.logbookDir, {
    mayRepair: flags.has('repair'),
    maySeal: flags.has('seal'),
  })
  const { sessions, sound, events, index, damages, unsealed, sealed } = verification
  const lines = [
    `${counted(sessions, 'session')} read, ${sound} sound, with ${counted(events, 'event')}.${indexTexts[index]}`,
    ...damages.map(({ file, wrong, done }) => `${file}: ${wrong} ${done}`),
    ...(sealed.length > 0 ? [`${counted(sealed.length, 'file')} sealed: ${listed(sealed)}.`] : []),
    ...(unsealed.length > 0
      ? [
          `${counted(unsealed.length, 'file')} without a checksum, from an earlier version or edited by hand: ${listed(unsealed)}. "pausebook verify --seal" adds it.`,
        ]
      : []),
  ]
  show(input, verification, fitted(lines.map((line) => `${line}\n`).join(''), io))
  return damages.length > 0 ? 3 : 0
}

const indexTexts = {
  rebuilt: ' Index rebuilt.',
  'not written': ' The index cannot be written here; every command takes longer without it.',
  none: '',
}

const mostListed = 3

function listed(files: readonly string[]): string {
  const more = files.length - mostListed
  return `${files.slice(0, mostListed).join(', ')}${more > 0 ? ` and ${more} more` : ''}`
}
