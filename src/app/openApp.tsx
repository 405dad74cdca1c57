import { attempt } from '../logbook/errors.ts'
import { readSettings } from '../logbook/settings.ts'
import type { Prescription } from '../prescription/model.ts'
import { Recorder } from '../ui/screens/Recorder.tsx'
import { TextScreen } from '../ui/screens/TextScreen.tsx'
import { isUnicodeTerminal } from '../ui/terminal/capabilities.ts'
import { runScreens, type ScreenTerminal } from '../ui/terminal/runScreens.tsx'
import { letterKey } from '../ui/widgets/KeyedScreen.tsx'
import { LookContext } from '../ui/widgets/look.ts'
import { prose } from '../ui/widgets/wrapped.ts'
import { unfinishedSessionOf } from './choices.ts'
import { earlierDays, readingDefaultsOf } from './earlierDays.ts'
import { firstStart } from './firstStart.tsx'
import { showSummary } from './lookBack.tsx'
import {
  beginRecording,
  type Recording,
  recordingTools,
  refuseUnsaved,
  resumeRecording,
  type Unsaved,
  whenFinished,
} from './recording.ts'
import type { CommandTools, Opening, Screens } from './screens.ts'
import { ringerOf } from './signal.ts'
import { showToday } from './today.tsx'

interface AppOptions extends Opening {
  commands: CommandTools
  /** Called once the sessions for the first screen are read, before anything is drawn. */
  beforeFirstFrame: () => void
  /** Defaults to the process's terminal. */
  streams?: Parameters<typeof runScreens>[1]
}

/** Opens the terminal app; resolves to the exit status when it is left. */
export async function openApp(options: AppOptions): Promise<number> {
  const { logbook, samples, env, begin, commands } = options
  const settings = () => readSettings(logbook.directory).settings
  const { clock, characters } = settings()
  const isUnicode = characters === 'unicode' || (characters === 'auto' && isUnicodeTerminal(env))
  const look = { isClockPlain: clock === 'plain' }
  let recording: Recording | null = null
  let unsaved: Unsaved | null = null
  const close = () => {
    const closed = recording?.writer.close()
    recording = null
    if (closed && !closed.ok) unsaved = closed
  }
  const start = (terminal: ScreenTerminal) => {
    const record = (begun: Recording) => {
      recording = begun
      whenFinished(begun, (id) => {
        close()
        showSummary(id, screens)
      })
      screens.show(<Recorder store={begun.store} />)
    }
    const screens: Screens = {
      logbook,
      samples,
      env,
      commands,
      terminal,
      settings,
      defaults: () => readingDefaultsOf(settings(), earlierDays(logbook, new Date())),
      ring: ringerOf(settings, terminal, env),
      show: (screen) => terminal.show(<LookContext value={look}>{screen}</LookContext>),
      begin: (day) => record(beginRecording(day, recordingTools(screens))),
      resume: (id) => record(resumeRecording(id, recordingTools(screens, id))),
      back: (picked, notice = null) => showToday(screens, picked, notice),
      leave: () => terminal.exit(),
    }
    const first = () => (begin === null ? screens.back(null) : beginOrAsk(begin, screens))
    if (settings().firstStartSeen) first()
    else {
      logbook.index()
      firstStart(screens, first)
    }
    options.beforeFirstFrame()
  }
  const together = (apply: () => void) => (recording === null ? apply() : recording.store.together(apply))
  const status = await runScreens({ isUnicode, start, together, leave: close }, options.streams)
  return unsaved === null ? status : refuseUnsaved(unsaved, options.err)
}

/** Begins a day; asks first if it has an unfinished session. */
function beginOrAsk(day: Prescription, screens: Screens): void {
  const left = unfinishedSessionOf(screens.logbook, day, new Date())
  if (left === null) {
    screens.begin(day)
    return
  }
  const resume = () => attempt(() => screens.resume(left.id))
  const begin = () => attempt(() => screens.begin(day))
  const goOn = { key: 'Enter', label: 'go on', does: 'goes on with it', acts: { enter: resume } }
  const startOver = letterKey('n', 'start over', 'begins the day again', begin)
  screens.show(
    <TextScreen
      text={prose(`${day.title}\n\n${left.question}`)}
      keys={left.mayResume ? [goOn, startOver] : [startOver]}
      leave={{ label: 'quit', act: screens.leave }}
    />,
  )
}
