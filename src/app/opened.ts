import type { Choice } from '../screens/choices.ts'
import { readDay } from './readDay.ts'
import { beginRecording, type Recording, resumeRecording } from './recording.ts'

/** Takes a choice up in the recorder; what stands in the way is said. */
export function opened(
  choice: Choice,
  record: (begun: Recording) => void,
  tools: (except?: string) => Parameters<typeof beginRecording>[1],
): { message: string | null } {
  try {
    if (choice.kind === 'unfinished') {
      record(resumeRecording(choice.id, tools(choice.id)))
      return { message: null }
    }
    const day = readDay(choice.path)
    if ('message' in day) return day
    record(beginRecording(day.prescription, tools()))
    return { message: null }
  } catch (error) {
    return { message: error instanceof Error ? error.message : String(error) }
  }
}
