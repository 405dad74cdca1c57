import { type Machine, thisMachine } from '../../src/logbook/machine.ts'

/** This machine, with some properties made up. */
export function machineWith(changes: Partial<Machine>): Machine {
  return { ...thisMachine(), ...changes }
}

/** This machine at a time when whatever is there was left long ago. */
export const muchLater = machineWith({ now: () => new Date('2100-01-01T12:00:00Z') })

export const deadPid = 2 ** 30
