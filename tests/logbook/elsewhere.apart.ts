import { openLogbook } from '../../src/logbook/store.ts'
import { verifyLogbook } from '../../src/logbook/verify.ts'
import { machineWith } from './testMachine.ts'

/** Opens a session as another user. */
export function openAs(user: number, directory: string, id: string): void {
  as(user, () => openLogbook(directory).open(id).close())
}

/** What another user finds wrong in a logbook. */
export function damagesAs(user: number, directory: string) {
  return as(user, () => verifyLogbook(directory).damages)
}

function as<T>(user: number, act: () => T): T {
  const self = process.geteuid?.() ?? 0
  process.seteuid?.(user)
  try {
    return act()
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
