import type { Logbook } from '../../src/logbook/store.ts'

/** A logbook on a full disk: its sessions can be opened, and nothing more is saved. */
export function onFullDisk(logbook: Logbook): Logbook {
  const full = { ok: false as const, reason: 'the disk is full' }
  const open: Logbook['open'] = (id) => {
    const file = logbook.open(id)
    const close = () => {
      file.close()
      return full
    }
    return { ...file, state: full, append: () => full, close }
  }
  return { ...logbook, damages: [], open }
}

/** A logbook in which no session can be created, nor written anywhere else. */
export function withoutRoom(logbook: Logbook): Logbook {
  const create = () => {
    throw new Error('No space left on the disk.')
  }
  return { ...logbook, damages: [], create, spill: () => null }
}
