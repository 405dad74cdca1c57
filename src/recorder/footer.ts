import { beatLabel, keyRows } from './keys.ts'
import type { RecorderModel } from './model.ts'
import { takesText } from './textModes.ts'

/** Those that are no text. */
const typing = new Set(['Enter', '↑ ↓'])

/** The keys that do something now. What decides comes first and is short enough for the narrowest screen. */
export function footer(model: RecorderModel): { key: string; label: string }[] {
  switch (model.mode.kind) {
    case 'recording': {
      const does = keyRows.filter((row) => row.unavailable(model) === null).sort((a, b) => a.rank - b.rank)
      // Behind something typed a letter and Space are text.
      if (model.draft !== '')
        return [
          ...does.filter(({ key }) => typing.has(key)).map(({ key, label }) => ({ key, label })),
          { key: 'Esc', label: 'empty it' },
        ]
      return does.map(({ key, label }) => ({ key, label: key === 'Space' ? beatLabel(model) : label }))
    }
    case 'question':
      return [
        ...(model.mode.suggested ? [{ key: 'Enter', label: 'as meant' }] : []),
        ...(model.mode.insisted ? [{ key: '!', label: 'as typed' }] : []),
        { key: 'Esc', label: 'retype' },
      ]
    case 'picking':
      return [
        { key: 'Enter', label: 'type it again' },
        { key: '↑ ↓', label: 'pick' },
        { key: 'Esc', label: 'leave it' },
      ]
    case 'ordering':
      return model.mode.carrying
        ? [
            { key: '↑ ↓', label: 'move it' },
            { key: 'Enter', label: 'let go' },
          ]
        : [
            { key: 'Enter', label: 'move it' },
            { key: 'b', label: 'begin' },
            { key: '↑ ↓', label: 'pick' },
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
        { key: 'Esc', label: takesText(model.mode) && model.draft !== '' ? 'empty it' : 'leave it' },
      ]
  }
}
