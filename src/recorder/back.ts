import type { RecorderModel } from './model.ts'

/** Back to recording, with the field as it was before; what was put aside waits for the next rest. */
export function recording(model: RecorderModel): RecorderModel {
  if (model.state.phase.kind === 'effort')
    return { ...model, mode: { kind: 'recording' }, draft: '', notice: null }
  return { ...model, mode: { kind: 'recording' }, draft: model.aside ?? '', aside: null, notice: null }
}
