import type { Choice } from '../screens/choices.ts'
import { readDay } from './readDay.ts'
import { readingDefaultsOf } from './recorderContext.ts'
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
    const used = tools()
    const day = readDay(choice.path, readingDefaultsOf(used.settings, used.earlier))
    if ('message' in day) return day
    record(beginRecording(day.prescription, used))
    return { message: null }
  } catch (error) {
    return { message: error instanceof Error ? error.message : String(error) }
  }
}
