import { type Mode, type RecorderModel, stay, type Updated } from '../model.ts'
import { closing } from './closing.ts'
import { correcting, painToday, swapping } from './fields.ts'
import { help, ordering, picking } from './lists.ts'
import type { ModeKind, ModeObject } from './mode.ts'
import { noting, placingNote } from './notes.ts'
import { question, several } from './questions.ts'
import { recordingMode } from './recording.ts'
import { skipping, undoing } from './skipAndUndo.ts'
import { cutOffered, timeLeft } from './timeLeft.ts'

const modes: { [K in ModeKind]: ModeObject<K> } = {
  recording: recordingMode,
  question,
  several,
  undoing,
  skipping,
  closing,
  picking,
  correcting,
  swapping,
  ordering,
  timeLeft,
  cutOffered,
  noting,
  placingNote,
  painToday,
  help,
}

/** What the recorder shows and does in the mode of this model. */
export function modeOf<K extends ModeKind>(mode: Extract<Mode, { kind: K }>): ModeObject<K> {
  return modes[mode.kind] as ModeObject<K>
}

/** Whether the field holds free text in the mode of this model. */
export function takesText({ mode }: RecorderModel): boolean {
  return modeOf(mode).onKey === undefined
}

/** What a character, `up` or `down` does in the mode of this model. */
export function keyed(model: RecorderModel, pressed: string): Updated {
  return modeOf(model.mode).onKey?.(model, model.mode, pressed) ?? stay(model)
}
