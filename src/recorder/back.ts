import type { RecorderModel } from './model.ts'

/** Back to recording, with the field as it was before. */
export function recording(model: RecorderModel): RecorderModel {
  return { ...model, mode: { kind: 'recording' }, draft: model.aside ?? '', aside: null, notice: null }
}
