import { todayOf } from '../logbook/machine.ts'
import { foreignBellText, isOwnBell } from '../logbook/settings.ts'
import { withLastLoads } from '../prescription/plannedLoads.ts'
import { plainOf } from '../summary/plain.ts'
import type { AppActions } from '../ui/screens/Today.tsx'
import { attempt, messageOf } from './attempt.ts'
import { choicesOf, damageText, dueText, unfinishedChoices } from './choices.ts'
import { editDay, newDayList } from './days.ts'
import { earlierDays, readingDefaultsOf, warmUpFor } from './earlierDays.ts'
import { morningScreen } from './morning.ts'
import { showHistory, showProgress } from './overWeeks.ts'
import { plannedText } from './planned.ts'
import {
  beginRecording,
  closeAsItIs,
  type Recording,
  type RecordingTools,
  readDay,
  resumeRecording,
} from './recording.ts'
import type { Screens } from './stage.ts'

interface Given {
  /** The folder of the sample days; null without. */
  samples: string | null
  env: Readonly<Record<string, string | undefined>>
  /** What a recording needs. @param except the id of the session itself */
  tools: (except?: string) => RecordingTools
  /** Shows the recorder. */
  record: (begun: Recording) => void
  /** Called once the sessions for the first screen are read. */
  screenComes: () => void
}

/** What the keys of the first screen do. */
export function todayActions(
  screens: Screens,
  { samples, env, tools, record, screenComes }: Given,
): AppActions {
  const { logbook, settings } = screens
  // Cached for the first screen, so that recent pain is not looked up in the index twice.
  let earlier = earlierDays(logbook, new Date())
  const choices = () => {
    earlier = earlierDays(logbook, new Date())
    const warmUpOf = warmUpFor(settings(), earlier.maxima)
    const defaults = readingDefaultsOf(settings(), earlier)
    return choicesOf(logbook, samples, { warmUpOf, defaults }, new Date())
  }
  const edit = (path: string) => attempt(() => editDay({ path }, screens, todayOf(new Date())))
  const today = () => screens.back(null)
  return {
    choices,
    firstChoices: () => {
      earlier = earlierDays(logbook, new Date())
      const unfinished = unfinishedChoices(logbook, new Date())
      const first = unfinished.length > 0 ? unfinished : choices()
      screenComes()
      return first
    },
    open: (choice) =>
      choice.kind === 'day'
        ? showDay(choice.path, screens, tools, record)
        : attempt(() => record(resumeRecording(choice.id, tools(choice.id)))),
    newDay: () => attempt(() => screens.show(newDayList(choices(), screens, new Date()))),
    edit: (choice) => {
      if (choice.kind === 'unfinished') return 'this day has begun: n writes a new one like it'
      return choice.sample ? 'a sample stays as it is: n writes a day like it' : edit(choice.path)
    },
    damage: () => {
      const { bell } = settings()
      const isForeign = Array.isArray(bell) && !isOwnBell(bell, env)
      return damageText(logbook) ?? (isForeign ? foreignBellText(bell) : null)
    },
    due: () => {
      const planned = plannedText(logbook.directory, todayOf(new Date()))
      const due = dueText(logbook, settings().rotation)
      return [due, planned].filter((text) => text !== null).join('   ') || null
    },
    pains: () => earlier.pains().map(({ place, text }) => `${plainOf(place)}: ${text}`),
    ring: () => screens.ring('long'),
    closeAsItIs: (id) => attempt(() => closeAsItIs(logbook, id)),
    deleteSession: (id) => attempt(() => logbook.open(id).discard()),
    history: () => showHistory(screens),
    progress: () => showProgress(screens),
    morning: () => attempt(() => screens.show(morningScreen(logbook.directory, today))),
    week: (say) => {
      screens.commands.week().then(
        (text) =>
          screens.show({
            screen: 'text',
            given: { text, keys: [], leave: { label: 'back', act: today } },
          }),
        (error: unknown) => say(messageOf(error)),
      )
    },
    leave: () => screens.terminal.exit(),
  }
}

/** Shows a day as it will be done, to begin it. Returns why it cannot be read. */
function showDay(
  path: string,
  screens: Screens,
  tools: Given['tools'],
  record: Given['record'],
): string | null {
  const { settings, earlier } = tools()
  const day = readDay(path, readingDefaultsOf(settings, earlier))
  if ('message' in day) return day.message
  const prescription = withLastLoads(day.prescription, earlier.lastLoads(day.prescription))
  const begin = () => attempt(() => record(beginRecording(day.prescription, tools())))
  screens.show({
    screen: 'text',
    given: {
      text: screens.commands.check(prescription, settings, earlier.maxima),
      keys: [{ key: 'Enter', name: 'enter', label: 'begin', does: 'begins the day', act: begin }],
      leave: { label: 'back', act: () => screens.back(path) },
    },
  })
  return null
}
