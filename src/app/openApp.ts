import { createElement } from 'react'
import { attempt, messageOf } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import type { Logbook } from '../logbook/model.ts'
import { foreignBellText, isOwnBell, readSettings } from '../logbook/settings.ts'
import type { Prescription } from '../prescription/model.ts'
import { withLastLoads } from '../prescription/plannedLoads.ts'
import { plainOf } from '../summary/plain.ts'
import { App, type Shown } from '../ui/screens/App.tsx'
import type { AppActions } from '../ui/screens/Today.tsx'
import { isUnicodeTerminal } from '../ui/terminal/capabilities.ts'
import { runScreens, type ScreenTerminal } from '../ui/terminal/runScreens.ts'
import { createKeyFeed, KeyFeedContext } from '../ui/widgets/keys.ts'
import { choicesOf, damageText, dueText, unfinishedChoices, unfinishedSessionOf } from './choices.ts'
import { editDay, newDayList } from './days.ts'
import { earlierDays, readingDefaultsOf, warmUpFor } from './earlierDays.ts'
import { firstStart } from './firstStart.ts'
import { morningScreen } from './morning.ts'
import { showHistory, showProgress, showSummary } from './overWeeks.ts'
import { plannedText, readDay } from './ownTexts.ts'
import {
  beginRecording,
  closeAsItIs,
  type Recording,
  recordingTools,
  refuseUnsaved,
  resumeRecording,
  type Unsaved,
  whenFinished,
} from './recording.ts'
import { signalWith } from './signal.ts'
import { type CommandTools, createStage, type Screens } from './stage.ts'

interface AppOptions {
  logbook: Logbook
  /** The folder of the sample days; null without. */
  samples: string | null
  env: Readonly<Record<string, string | undefined>>
  /** Opens the recorder on this day at once. */
  begin: Prescription | null
  commands: CommandTools
  /** Writes to standard error after the screen is closed. */
  err: (text: string) => void
  /** Called once the sessions for the first screen are read, before anything is drawn. */
  screenComes: () => void
  /** Defaults to the process's terminal. */
  streams?: Parameters<typeof runScreens>[1]
}

/** Shows the recorder. */
type ShowRecording = (begun: Recording) => void

/** Opens the terminal app; resolves to the exit status when it is left. */
export function openApp(given: AppOptions): Promise<number> {
  const feed = createKeyFeed()
  let recording: Recording | null = null
  let unsaved: Unsaved | null = null
  const close = () => {
    const closed = recording?.writer.close()
    recording = null
    if (closed && !closed.ok) unsaved = closed
  }
  const screensOn = (terminal: ScreenTerminal) => {
    const stage = createStage({ screen: 'today', visit: 0, picked: null, said: null })
    const screens = screensOf(given, terminal, stage.show)
    const record = (begun: Recording) => {
      recording = begun
      whenFinished(begun, (id) => {
        close()
        showSummary(id, screens)
      })
      stage.show({ screen: 'recorder', store: begun.store })
    }
    const actions = todayActions(screens, given, record)
    const start = () => {
      if (given.begin === null) return screens.back(null)
      beginOrAsk(given.begin, screens, record)
      given.screenComes()
    }
    const { firstStartSeen, clock, characters } = screens.settings()
    if (firstStartSeen) start()
    else {
      given.logbook.index()
      given.screenComes()
      stage.show(firstStart(given.logbook.directory, () => screens.ring('long'), start))
    }
    const ascii = characters === 'ascii' || (characters === 'auto' && !isUnicodeTerminal(given.env))
    if (ascii) terminal.keepToAscii()
    const app = createElement(App, { stage, actions, look: { ascii, plainClock: clock === 'plain' } })
    return createElement(KeyFeedContext, { value: feed }, app)
  }
  const together = (apply: () => void) => (recording === null ? apply() : recording.store.together(apply))
  return runScreens({ screens: screensOn, feed, together, leave: close }, given.streams).then((status) =>
    unsaved === null ? status : refuseUnsaved(unsaved, given.err),
  )
}

function screensOf(
  { logbook, commands, env }: AppOptions,
  terminal: ScreenTerminal,
  show: (shown: Shown) => void,
): Screens {
  const settings = () => readSettings(logbook.directory).settings
  let visit = 0
  return {
    logbook,
    commands,
    terminal,
    settings,
    defaults: () => readingDefaultsOf(settings(), earlierDays(logbook, new Date())),
    ring: (signal) => signalWith(settings(), terminal, env)(signal),
    leave: () => terminal.exit(),
    show,
    back: (picked, said = null) => {
      visit += 1
      show({ screen: 'today', visit, picked, said })
    },
  }
}

/** Begins a day; asks first if it has an unfinished session. */
function beginOrAsk(day: Prescription, screens: Screens, record: ShowRecording): void {
  const begin = () => record(beginRecording(day, recordingTools(screens)))
  const left = unfinishedSessionOf(screens.logbook, day, new Date())
  if (left === null) {
    begin()
    return
  }
  const resume = () => attempt(() => record(resumeRecording(left.id, recordingTools(screens, left.id))))
  const goOn = { key: 'Enter', name: 'enter', label: 'go on', does: 'goes on with it', act: resume }
  const startOver = { key: 'n', label: 'start over', does: 'begins the day anew', act: () => attempt(begin) }
  screens.show({
    screen: 'text',
    given: {
      text: `${day.title}\n\n${left.question}`,
      keys: left.mayResume ? [goOn, startOver] : [startOver],
      leave: { label: 'quit', act: screens.leave },
    },
  })
}

/** What the keys of the first screen do. */
function todayActions(
  screens: Screens,
  { samples, env, screenComes }: AppOptions,
  record: ShowRecording,
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
        ? showDay(choice.path, screens, record)
        : attempt(() => record(resumeRecording(choice.id, recordingTools(screens, choice.id)))),
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
    leave: screens.leave,
  }
}

/** Shows a day as it will be done, to begin it. Returns why it cannot be read. */
function showDay(path: string, screens: Screens, record: ShowRecording): string | null {
  const { settings, earlier } = recordingTools(screens)
  const day = readDay(path, readingDefaultsOf(settings, earlier))
  if ('message' in day) return day.message
  const prescription = withLastLoads(day.prescription, earlier.lastLoads(day.prescription))
  const begin = () => attempt(() => record(beginRecording(day.prescription, recordingTools(screens))))
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
