import { openLogbook } from '../../src/logbook/store.ts'
import { machineWith } from './testMachine.ts'

/** Opens a session as another user. */
export function openAs(user: number, directory: string, id: string): void {
  const self = process.geteuid?.() ?? 0
  process.seteuid?.(user)
  try {
    openLogbook(directory).open(id).close()
  } finally {
    process.seteuid?.(self)
  }
}

/** What another machine, in a time zone, finds in a logbook. */
export function readIn(zone: string, directory: string) {
  process.env.TZ = zone
  const logbook = openLogbook(directory, machineWith({ host: 'elsewhere', boot: 'another' }))
  return {
    minutesBehindUtc: new Date('2026-11-26T12:00:00Z').getTimezoneOffset(),
    entry: logbook.read('newest').entry,
    summary: logbook.index()[0]?.summary(),
    damages: logbook.damages,
  }
}
