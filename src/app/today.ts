import { attempt, messageOf } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import { foreignBellText, isOwnBell } from '../logbook/settings.ts'
import { withLastLoads } from '../prescription/planned.ts'
import { plainOf } from '../summary/plain.ts'
import type { Choice, OnToday, TodayGiven } from '../ui/screens/Today.tsx'
import { keysKey, type ScreenKey, signalKey } from '../ui/widgets/KeyedScreen.tsx'
import { joined } from '../units/lists.ts'
import { damageText, dayChoices, dueText, unfinishedChoices } from './choices.ts'
import { editDay, newDayList } from './days.ts'
import { earlierDays, readingDefaultsOf, warmUpFor } from './earlierDays.ts'
import { morningScreen } from './morning.ts'
import { showHistory, showProgress } from './overWeeks.ts'
import { plannedText, readDay } from './ownTexts.ts'
import { beginRecording, closeAsItIs, type Recording, recordingTools, resumeRecording } from './recording.ts'
import type { Opening, Screens } from './stage.ts'

type ChoiceOf<Kind> = Extract<Choice, { kind: Kind }>

/** Shows the recorder. */
export type ShowRecording = (begun: Recording) => void

interface Given extends Pick<Opening, 'samples' | 'env'> {
  record: ShowRecording
  /** Called once the sessions for the first screen are read. */
  screenComes: () => void
}

/** What the first screen shows, and what its keys do. */
export function todayGiven(screens: Screens, given: Given): TodayGiven {
  const { samples, env, screenComes } = given
  const { logbook, settings } = screens
  // Read once for each time the screen is shown: the index of many years takes a second.
  let earlier = earlierDays(logbook, new Date())
  const readAgain = () => {
    earlier = earlierDays(logbook, new Date())
  }
  const days = () => {
    const now = settings()
    const known = { warmUpOf: warmUpFor(now, earlier.maxima), defaults: readingDefaultsOf(now, earlier) }
    return dayChoices(logbook, samples, known, new Date())
  }
  const unfinished = () => unfinishedChoices(logbook, new Date(), earlier.entries())
  const newDay = () => attempt(() => screens.show(newDayList(days(), earlier.entries(), screens, new Date())))
  return {
    choices: () => {
      readAgain()
      return [...unfinished(), ...days()]
    },
    firstChoices: () => {
      readAgain()
      const left = unfinished()
      const first = left.length > 0 ? left : days()
      screenComes()
      return first
    },
    damage: () => {
      const { bell } = settings()
      const isForeign = Array.isArray(bell) && !isOwnBell(bell, env)
      return damageText(logbook) ?? (isForeign ? foreignBellText(bell) : null)
    },
    due: () => {
      const planned = plannedText(logbook.directory, todayOf(new Date()))
      const due = dueText(earlier.entries(), settings().rotation)
      return joined('   ', [due, planned]) || null
    },
    pains: () => earlier.pains().map(({ place, text }) => `${plainOf(place)}: ${text}`),
    keys: (chosen, screen) => {
      const own = chosen === undefined ? [] : keysOf(chosen, screens, given, screen)
      const [enter, edit, ...others] = own
      const does = 'writes a new day, empty or like an earlier one'
      const writes: ScreenKey = { key: 'n', label: 'new', does, acts: { n: newDay } }
      const first = [enter, keysKey, ...others, writes, edit].filter((key) => key !== undefined)
      return [...first, ...keysOfAll(screens, screen)]
    },
  }
}

/** The keys of the chosen day or session: Enter, `e` and the others. */
function keysOf(chosen: Choice, screens: Screens, given: Given, screen: OnToday): ScreenKey[] {
  return chosen.kind === 'day'
    ? keysOfDay(chosen, screens, given)
    : keysOfLeft(chosen, screens, given, screen)
}

function keysOfDay({ path, sample }: ChoiceOf<'day'>, screens: Screens, { record }: Given): ScreenKey[] {
  const open = () => showDay(path, screens, record)
  const edit = () =>
    sample
      ? 'a sample stays as it is: n writes a day like it'
      : attempt(() => editDay({ path }, screens, todayOf(new Date())))
  return [
    {
      key: 'Enter',
      label: 'open',
      does: 'opens the day, laid out; Enter again begins it',
      acts: { enter: open, ' ': open },
    },
    {
      key: 'e',
      label: 'edit',
      does: 'edits the chosen day',
      acts: { e: edit },
      ...(sample ? { isNamed: 'nowhere' } : {}),
    },
  ]
}

/** The keys of an unfinished session; only Enter and e, which say why not, while another program records it. */
function keysOfLeft(
  { id, recordedBy }: ChoiceOf<'unfinished'>,
  screens: Screens,
  { record }: Given,
  { reload }: OnToday,
): ScreenKey[] {
  const resume = () => attempt(() => record(resumeRecording(id, recordingTools(screens, id))))
  const after = (problem: string | null, done: string) => {
    reload()
    return problem ?? done
  }
  const close = () =>
    after(
      attempt(() => closeAsItIs(screens.logbook, id)),
      'closed as it was',
    )
  const remove = () =>
    after(
      attempt(() => screens.logbook.open(id).discard()),
      'deleted',
    )
  const goOn: ScreenKey = {
    key: 'Enter',
    label: 'go on',
    does: 'goes on with the unfinished session',
    acts: { enter: resume, ' ': resume },
  }
  const edit: ScreenKey = {
    key: 'e',
    label: 'edit',
    does: 'edits the chosen day',
    isNamed: 'nowhere',
    acts: { e: () => 'this day has begun: n writes a new one like it' },
  }
  if (recordedBy !== null) return [{ ...goOn, isNamed: 'nowhere' }, edit]
  return [
    goOn,
    edit,
    {
      key: 'c',
      label: 'close as it is',
      does: 'closes the session: what is not recorded is not done',
      asks: 'c again closes this session; what is not recorded counts as not done',
      acts: { c: close },
    },
    {
      key: 'd',
      label: 'delete',
      does: 'deletes the session, once it is pressed twice',
      asks: 'd again deletes this session for good',
      acts: { d: remove },
    },
  ]
}

/** The keys that have nothing to do with the chosen day. */
function keysOfAll(screens: Screens, { say }: OnToday): ScreenKey[] {
  const today = () => screens.back(null)
  const morning = () => attempt(() => screens.show(morningScreen(screens.logbook.directory, today)))
  const week = () => {
    screens.commands.week().then(
      (text) =>
        screens.show({
          screen: 'text',
          given: { text: () => text, keys: [], leave: { label: 'back', act: today } },
        }),
      (error: unknown) => say(messageOf(error)),
    )
  }
  return [
    {
      key: 'h',
      label: 'history',
      does: 'the sessions, each with its summary',
      acts: { h: () => showHistory(screens) },
    },
    {
      key: 'g',
      label: 'progress',
      does: 'how lifts, running and load have gone over the weeks',
      acts: { g: () => showProgress(screens) },
    },
    { key: 'w', label: 'week', does: 'what is done and what is ready this week', acts: { w: week } },
    {
      key: 'm',
      label: 'morning',
      does: 'takes sleep, resting heart rate, body mass, soreness',
      acts: { m: morning },
    },
    { ...signalKey(() => screens.ring('long')), isNamed: 'page' },
    { key: 'q', label: 'quit', does: 'quits', acts: { q: screens.leave } },
  ]
}

/** Shows a day as it will be done, to begin it. Returns why it cannot be read. */
function showDay(path: string, screens: Screens, record: ShowRecording): string | null {
  const { settings, earlier } = recordingTools(screens)
  const day = readDay(path, readingDefaultsOf(settings, earlier))
  if ('message' in day) return day.message
  const prescription = withLastLoads(day.prescription, earlier.lastLoads(day.prescription))
  const begin = () => attempt(() => record(beginRecording(day.prescription, recordingTools(screens))))
  const checked = screens.commands.check(prescription, settings, earlier.maxima)
  screens.show({
    screen: 'text',
    given: {
      text: () => checked,
      keys: [{ key: 'Enter', label: 'begin', does: 'begins the day', acts: { enter: begin } }],
      leave: { label: 'back', act: () => screens.back(path) },
    },
  })
  return null
}
