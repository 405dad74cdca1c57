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
