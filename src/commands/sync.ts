import { kindsOf } from '../logbook/logbookFiles.ts'
import { thisMachine } from '../logbook/machine.ts'
import { readSettings } from '../logbook/settings.ts'
import { type SyncOutcome, syncLogbook, withoutPasswords } from '../logbook/sync.ts'
import { keepVersion, nameOf } from '../logbook/syncDisk.ts'
import { joined } from '../units/lists.ts'
import { sanitize } from '../validate/unsafe.ts'
import { type CommandInput, type ExitCode, show } from './command.ts'

/** Synchronises sessions and prescriptions with other machines through the user's git, and reports the changes.
 * Settings stay on their machine, because plates and commands differ between machines.
 * @throws LogbookError as syncLogbook */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  // The mornings are exchanged, and what is wrong with them is said then.
  const read = readSettings(input.logbookDir, { mornings: [], damages: [] })
  input.sources.push(read)
  const { syncRemote } = read.settings
  const mayAsk = io.terminal.in && io.terminal.err
  const tools = { machine: thisMachine(), env: io.env, mayAsk, mayDelete: input.flags.has('delete') }
  const { keep } = input.values
  if (keep !== undefined) {
    const gone = keepVersion(input.logbookDir, keep, tools.machine)
    io.err(`Kept ${sanitize(keep)}; in the trash for 90 days: ${gone.join(', ')}.\n`)
  }
  // A remote may take long to answer.
  if (syncRemote !== null && mayAsk) io.err(`Asking ${withoutPasswords(syncRemote)} ...\n`)
  const outcome = syncLogbook(input.logbookDir, syncRemote, tools)
  input.sources.push(outcome)
  if (outcome.rebuilt !== null)
    io.err(
      `The git repository of the logbook was damaged. It was moved to ${outcome.rebuilt} and rebuilt from the disk and the remote.\n`,
    )
  show(input, { remote: syncRemote, ...outcome }, outcomeText(outcome, syncRemote))
  return 0
}

function outcomeText(outcome: SyncOutcome, remote: string | null): string {
  const { changed, sent, received, deletedHere, deletedThere, mornings, rewritten, restored } = outcome
  const { keptTwice, versions } = outcome
  const keepOne = (paths: readonly string[]) =>
    `Keep one with pausebook sync --keep ${paths.map((path) => `"${nameOf(path)}"`).join(' or ')}.`
  const restoredText =
    restored.length > 0 &&
    `Restored what these files had lost since the last sync: ${sanitize(restored.join(', '))}.`
  if (remote === null) {
    const head = changed.length === 0 ? 'Nothing has changed' : `Committed: ${kindsOf(changed)}`
    const advice = 'name a git repository with "pausebook settings sync-remote ADDRESS"'
    return `${joined('\n', [`${head}. Nothing was exchanged: ${advice}.`, restoredText])}\n`
  }
  const gone = joined('\n', [
    deletedThere.length > 0 && `Deleted in the remote, as they were here: ${kindsOf(deletedThere)}.`,
    deletedHere.length > 0 && `Deleted here, as another machine did: ${kindsOf(deletedHere)}.`,
  ])
  const isStill = [sent, received, gone].every((moved) => moved.length === 0)
  const lines = [
    isStill
      ? 'Nothing to send and nothing to receive.'
      : `Sent: ${kindsOf(sent)}. Received: ${kindsOf(received)}.`,
    gone,
    gone !== '' && "What was deleted stays in the logbook's trash for 90 days.",
    restoredText,
    ...keptTwice.map(({ path, own }) =>
      sanitize(
        `Changed on two machines, both kept: ${path} is the other machine's, ${own} is this one's. ${keepOne([own, path])}`,
      ),
    ),
    ...versions
      .filter((paths) => !keptTwice.some(({ own }) => paths.includes(own)))
      .map((paths) => sanitize(`Kept twice: ${paths.join(', ')}. ${keepOne(paths)}`)),
    ...mornings.map(
      (text) =>
        `Two machines differ on the morning of ${sanitize(text)}. What was typed later counts; "pausebook morning ${text.slice(0, 10)} VALUE" changes it.`,
    ),
    ...rewritten.map(
      (path) =>
        `Another machine has changed what was recorded in ${sanitize(path)}. What was here is in ${sanitize(path)}.bak.`,
    ),
  ]
  return `${joined('\n', lines)}\n`
}
