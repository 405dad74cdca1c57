import { beatLabel, keyRows } from './keys.ts'
import type { StandingModel } from './model.ts'

/** The keys that do something now. */
export function footer(model: StandingModel): { key: string; label: string }[] {
  switch (model.mode.kind) {
    case 'recording': {
      const rows = keyRows.filter((row) => row.unavailable(model) === null).sort((a, b) => a.rank - b.rank)
      return rows.map(({ key, label }) => ({ key, label: key === 'Space' ? beatLabel(model) : label }))
    }
    case 'question':
      return [
        ...(model.mode.suggested ? [{ key: 'Enter', label: 'take what is meant' }] : []),
        ...(model.mode.insisted ? [{ key: '!', label: 'take it as typed' }] : []),
        { key: 'Esc', label: 'type again' },
      ]
    case 'picking':
      return [
        { key: '↑ ↓', label: 'pick' },
        { key: 'Enter', label: 'type it again' },
        { key: 'Esc', label: 'leave it' },
      ]
    case 'ordering':
      return model.mode.carrying
        ? [
            { key: '↑ ↓', label: 'move it' },
            { key: 'Enter', label: 'let go' },
          ]
        : [
            { key: '↑ ↓', label: 'pick' },
            { key: 'Enter', label: 'take it up' },
            { key: 'b', label: 'begin it now' },
            { key: 'Esc', label: 'leave it' },
          ]
    case 'undoing':
      return [
        { key: 'u', label: 'take it back' },
        { key: 'Esc', label: 'leave it' },
      ]
    case 'help':
      return [
        { key: 'Esc', label: 'back' },
        { key: '↑ ↓', label: 'read on' },
      ]
    default:
      return [
        { key: 'Enter', label: 'take it' },
        { key: 'Esc', label: 'leave it' },
      ]
  }
}
