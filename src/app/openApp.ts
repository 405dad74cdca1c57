import { createElement } from 'react'
import { LogbookError } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import type { Logbook } from '../logbook/model.ts'
import { foreignBellText, isOwnBell, readSettings } from '../logbook/settings.ts'
import type { Prescription } from '../prescription/model.ts'
import { withLastLoads } from '../prescription/plan.ts'
import { replay } from '../session/replay.ts'
import { plainOf } from '../summary/plain.ts'
import { App, type Shown, type Stage } from '../ui/screens/App.tsx'
import type { AppActions } from '../ui/screens/Today.tsx'
import { isUnicodeTerminal } from '../ui/terminal/capabilities.ts'
import { runScreens, type ScreenTerminal } from '../ui/terminal/runScreens.ts'
import { createKeyFeed, KeyFeedContext } from '../ui/widgets/keys.ts'
import { choicesOf, damageText, dueText, unfinishedChoices, unfinishedSessionOf } from './choices.ts'
import { type CommandTools, type Editing, editDay, newDayList } from './days.ts'
import { earlierDays, readingDefaultsOf, recorderContextOf } from './earlierDays.ts'
import { attempt, firstStart } from './firstStart.ts'
import { morningScreen } from './morning.ts'
import { decisionsContent } from './nextDay.ts'
import { historyContent, progressContent, summaryTextOf } from './overWeeks.ts'
import { plannedText } from './planned.ts'
import {
  beginRecording,
  closeAsItIs,
  type Recording,
  readDay,
  resumeRecording,
  type Unsaved,
  unsavedText,
} from './recording.ts'
import { signalWith } from './signal.ts'

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

const noSessions = 'no session is in this logbook yet'

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
  const screens = (terminal: ScreenTerminal) => {
    const { logbook } = given
    const settings = () => readSettings(logbook.directory).settings
    const stage = createStage({ screen: 'today', visit: 0, picked: null, said: null })
    const signal = (kind: 'short' | 'long') => signalWith(settings(), terminal, given.env)(kind)

    const showSummary = (id: string, leave = () => terminal.exit()) => {
      const { session } = logbook.read(id)
      const text = (full: boolean, columns: number) =>
        summaryTextOf(logbook, session, settings(), { full, bars: true, columns })
      const note = () => summaryTextOf(logbook, session, settings(), { full: false })
      const show = () =>
        stage.show({ screen: 'summary', given: { text, copy: () => terminal.copy(note()), next, leave } })
      const next = (): string | null => {
        let decided: string | null = null
        const problem = attempt(() => {
          const date = todayOf(new Date())
          const given = decisionsContent(id, logbook, settings(), date, back)
          if (given === null)
            decided = replay(logbook.read(id).session).finished
              ? 'No advice for this day.'
              : 'Finish the session first.'
          else stage.show({ screen: 'decisions', given: { ...given, leave: show } })
        })
        return problem ?? decided
      }
      show()
    }
    let visit = 0
    const back = (picked: string | null, said: string | null = null) => {
      visit += 1
      stage.show({ screen: 'today', visit, picked, said })
    }
    const today = () => back(null)
    const showHistory = (picked: string | null): string | null => {
      const sessions = historyContent(logbook, settings())
      if (sessions === null) return noSessions
      const open = (id: string) => attempt(() => showSummary(id, () => void showHistory(id)))
      const enter = { label: 'its summary', does: 'shows the summary of the session' }
      stage.show({
        screen: 'list',
        given: { ...sessions, title: 'History', enter, picked, open, leave: today },
      })
      return null
    }
    const showProgress = (): string | null => {
      const date = todayOf(new Date())
      const subjects = progressContent(logbook, settings(), date)
      if (subjects === null) return noSessions
      stage.show({ screen: 'progress', given: { subjects, leave: today } })
      return null
    }
    const tools = (except: string | null = null) => ({
      logbook,
      settings: settings(),
      earlier: earlierDays(logbook, new Date(), except),
      ring: signal,
      leave: () => terminal.exit(),
    })
    const record = (begun: Recording) => {
      recording = begun
      const { store, writer } = begun
      const stop = store.subscribe(() => {
        const { state, saved } = store.get()
        if (!state.finished || !saved.ok || writer.id === null) return
        stop()
        const { id } = writer
        close()
        showSummary(id)
      })
      stage.show({ screen: 'recorder', store })
    }
    // Cached for the first screen, so that recent pain is not looked up in the index twice.
    let earlier = earlierDays(logbook, new Date())
    const choices = () => {
      earlier = earlierDays(logbook, new Date())
      const { warmUpOf } = recorderContextOf(settings(), earlier)
      const defaults = readingDefaultsOf(settings(), earlier)
      return choicesOf(logbook, given.samples, { warmUpOf, defaults }, new Date())
    }
    const editing: Editing = {
      logbook,
      commands: given.commands,
      terminal,
      defaults: () => readingDefaultsOf(settings(), earlierDays(logbook, new Date())),
      show: stage.show,
      back,
    }
    const edit = (path: string) => attempt(() => editDay({ path }, editing, todayOf(new Date())))
    const checkDay = (path: string): string | null => {
      const used = tools()
      const day = readDay(path, readingDefaultsOf(used.settings, used.earlier))
      if ('message' in day) return day.message
      const prescription = withLastLoads(day.prescription, used.earlier.lastLoads(day.prescription))
      const begin = () => attempt(() => record(beginRecording(day.prescription, tools())))
      stage.show({
        screen: 'text',
        given: {
          text: given.commands.check(prescription, used.settings, used.earlier.maxima),
          keys: [{ key: 'Enter', name: 'enter', label: 'begin', does: 'begins the day', act: begin }],
          leave: { label: 'back', act: () => back(path) },
        },
      })
      return null
    }
    const showWeek = (say: (message: string) => void) => {
      given.commands.week().then(
        (text) =>
          stage.show({ screen: 'text', given: { text, keys: [], leave: { label: 'back', act: today } } }),
        (error: unknown) => say(error instanceof Error ? error.message : String(error)),
      )
    }
    const actions: AppActions = {
      choices,
      firstChoices: () => {
        earlier = earlierDays(logbook, new Date())
        const unfinished = unfinishedChoices(logbook, new Date())
        const first = unfinished.length > 0 ? unfinished : choices()
        given.screenComes()
        return first
      },
      open: (choice) =>
        choice.kind === 'day'
          ? checkDay(choice.path)
          : attempt(() => record(resumeRecording(choice.id, tools(choice.id)))),
      newDay: () => attempt(() => stage.show(newDayList(choices(), editing, new Date()))),
      edit: (choice) => {
        if (choice.kind === 'unfinished') return 'this day has begun: n writes a new one like it'
        return choice.sample ? 'a sample stays as it is: n writes a day like it' : edit(choice.path)
      },
      damage: () => {
        const { bell } = settings()
        const isForeign = Array.isArray(bell) && !isOwnBell(bell, given.env)
        return damageText(logbook) ?? (isForeign ? foreignBellText(bell) : null)
      },
      due: () => {
        const planned = plannedText(logbook.directory, todayOf(new Date()))
        const pains = earlier.pains().map(({ place, text }) => `${plainOf(place)}: ${text}`)
        const due = dueText(logbook, settings().rotation)
        return [due, planned, ...pains].filter((text) => text !== null).join('   ') || null
      },
      ring: () => signal('long'),
      closeAsItIs: (id) => attempt(() => closeAsItIs(logbook, id)),
      deleteSession: (id) => attempt(() => logbook.open(id).discard()),
      history: () => showHistory(null),
      progress: showProgress,
      morning: () => attempt(() => stage.show(morningScreen(logbook.directory, today))),
      week: showWeek,
      leave: () => terminal.exit(),
    }
    const start = () => {
      const { begin } = given
      if (!begin) return today()
      const startOver = () => record(beginRecording(begin, tools()))
      const left = unfinishedSessionOf(logbook, begin, new Date())
      if (left === null) startOver()
      else {
        const resume = () => attempt(() => record(resumeRecording(left.id, tools(left.id))))
        const { question } = left
        const title = begin.title
        stage.show({
          screen: 'resume',
          given: { title, question, resume, startOver, quit: () => terminal.exit() },
        })
      }
      given.screenComes()
    }
    if (settings().firstStartSeen) start()
    else {
      logbook.index()
      given.screenComes()
      stage.show(firstStart(logbook.directory, () => signal('long'), start))
    }
    const { clock, characters } = settings()
    const ascii = characters === 'ascii' || (characters === 'auto' && !isUnicodeTerminal(given.env))
    if (ascii) terminal.keepToAscii()
    const app = createElement(App, { stage, actions, look: { ascii, plainClock: clock === 'plain' } })
    return createElement(KeyFeedContext, { value: feed }, app)
  }
  const together = (apply: () => void) => (recording === null ? apply() : recording.store.together(apply))
  return runScreens({ screens, feed, together, leave: close }, given.streams).then((status) => {
    if (unsaved === null) return status
    const { lines, last } = unsavedText(unsaved)
    given.err(lines)
    throw new LogbookError('cannot_write', last)
  })
}

/** Which screen is shown, and how to switch to another. */
export function createStage(first: Shown): Stage & { show(shown: Shown): void } {
  let shown = first
  const listeners = new Set<() => void>()
  return {
    get: () => shown,
    subscribe: (listener) => {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
    show: (next) => {
      shown = next
      for (const listener of [...listeners]) listener()
    },
  }
}
