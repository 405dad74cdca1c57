import { type Machine, thisMachine } from '../../src/logbook/machine.ts'

/** This machine, with some properties made up. */
export function machineWith(changes: Partial<Machine>): Machine {
  return { ...thisMachine(), ...changes }
}

export const deadPid = 2 ** 30
