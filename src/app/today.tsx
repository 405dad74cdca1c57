import { attempt, messageOf } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import { dayOrMessage } from '../logbook/ownTexts.ts'
import { foreignBellText, isOwnBell } from '../logbook/settings.ts'
import { withLastLoads } from '../prescription/planned.ts'
import { plainOf } from '../summary/plain.ts'
import { AskScreen } from '../ui/screens/AskScreen.tsx'
import { TextScreen } from '../ui/screens/TextScreen.tsx'
import { type Choice, Today } from '../ui/screens/Today.tsx'
import { keysKey, letterKey, type ScreenKey, signalKey } from '../ui/widgets/KeyedScreen.tsx'
import { joined } from '../units/lists.ts'
import { damageText, dayChoices, dueText, plannedText, unfinishedChoices } from './choices.ts'
import { editDay, showModels } from './days.tsx'
import { earlierDays, readingDefaultsOf, warmUpFor } from './earlierDays.ts'
import { showHistory, showProgress } from './lookBack.tsx'
import { morningHint, morningOn, takeMorning } from './morning.ts'
import { closeAsItIs } from './recording.ts'
import type { Screens } from './screens.ts'

type ChoiceOf<Kind> = Extract<Choice, { kind: Kind }>

/** Shows the first screen.
 * @param picked the path or id of the picked choice; null for the first one */
export function showToday(screens: Screens, picked: string | null, notice: string | null): void {
  const { logbook, samples, env, settings } = screens
  // Read once for each time the screen is shown: the index of many years takes a second.
  const earlier = earlierDays(logbook, new Date())
  const now = settings()
  const unfinished = unfinishedChoices(logbook, new Date(), earlier.entries())
  const days = () => {
    const known = { warmUpOf: warmUpFor(now, earlier.maxima), defaults: readingDefaultsOf(now, earlier) }
    return dayChoices(logbook, samples, known, new Date())
  }
  const foreignBell = Array.isArray(now.bell) && !isOwnBell(now.bell, env) ? foreignBellText(now.bell) : null
  const planned = plannedText(logbook.directory, todayOf(new Date()))
  const newDay = () => attempt(() => showModels(days(), earlier.entries(), screens, new Date()))
  const writes = letterKey('n', 'new', 'writes a new day, empty or like an earlier one', newDay)
  screens.show(
    <Today
      unfinished={unfinished}
      days={days}
      due={joined('   ', [dueText(earlier.entries(), now.rotation), planned])}
      pains={earlier.pains().map(({ place, text }) => `${plainOf(place)}: ${text}`)}
      damage={damageText(logbook) ?? foreignBell}
      keys={(chosen) => {
        const [enter, ...others] = chosen === undefined ? [] : keysOf(chosen, screens)
        const first = enter === undefined ? [keysKey] : [enter, keysKey]
        return [...first, ...others, writes, ...keysOfAll(screens, chosen?.id ?? null)]
      }}
      picked={picked}
      notice={notice}
    />,
  )
}

/** The keys of the chosen day or session, Enter first. */
function keysOf(chosen: Choice, screens: Screens): ScreenKey[] {
  return chosen.kind === 'day' ? keysOfDay(chosen, screens) : keysOfUnfinished(chosen, screens)
}

function keysOfDay({ id: path, sample }: ChoiceOf<'day'>, screens: Screens): ScreenKey[] {
  const open = () => showDay(path, screens)
  const edit = () => attempt(() => editDay({ path }, screens, todayOf(new Date())))
  const enter: ScreenKey = {
    key: 'Enter',
    label: 'open',
    does: 'opens the day, laid out; Enter again begins it',
    acts: { enter: open, ' ': open },
  }
  return sample ? [enter] : [enter, letterKey('e', 'edit', 'edits the chosen day', edit)]
}

/** The keys of an unfinished session; none while another program records it. */
function keysOfUnfinished({ id, mayResume }: ChoiceOf<'unfinished'>, screens: Screens): ScreenKey[] {
  const { logbook, back } = screens
  const resume = () => attempt(() => screens.resume(id))
  const close = () => back(id, attempt(() => closeAsItIs(logbook, id)) ?? 'closed as it was')
  const remove = () => back(id, attempt(() => logbook.open(id).discard()) ?? 'deleted')
  if (!mayResume) return []
  return [
    {
      key: 'Enter',
      label: 'go on',
      does: 'goes on with the unfinished session',
      acts: { enter: resume, ' ': resume },
    },
    {
      ...letterKey('c', 'close as it is', 'closes the session: what is not recorded is not done', close),
      asks: 'c again closes this session; what is not recorded counts as not done',
    },
    {
      ...letterKey('d', 'delete', 'deletes the session, once it is pressed twice', remove),
      asks: 'd again deletes this session for good',
    },
  ]
}

/** The keys that have nothing to do with the chosen day.
 * @param chosen its path or id, to return to */
function keysOfAll(screens: Screens, chosen: string | null): ScreenKey[] {
  const { show, back, ring, leave, commands } = screens
  const week = () => {
    commands.week().then(
      (text) =>
        show(<TextScreen text={() => text} keys={[]} leave={{ label: 'back', act: () => back(null) }} />),
      (error: unknown) => back(chosen, messageOf(error)),
    )
  }
  return [
    letterKey('h', 'history', 'the sessions, each with its summary', () => showHistory(screens)),
    letterKey('g', 'progress', 'how lifts, running and load have gone over the weeks', () =>
      showProgress(screens),
    ),
    letterKey('w', 'week', 'what is done and ready this week, and the plan', week),
    letterKey('m', 'morning', 'takes sleep, resting heart rate, body mass, soreness', () =>
      showMorning(screens),
    ),
    { ...signalKey(() => ring('long')), isOnPageOnly: true },
    letterKey('q', 'quit', 'quits', leave),
  ]
}

/** Shows a day laid out, ready to begin. Returns a message if it cannot be read. */
function showDay(path: string, screens: Screens): string | null {
  const settings = screens.settings()
  const earlier = earlierDays(screens.logbook, new Date())
  const day = dayOrMessage(path, readingDefaultsOf(settings, earlier))
  if ('message' in day) return day.message
  const prescription = withLastLoads(day.prescription, earlier.lastLoads(day.prescription))
  const checked = screens.commands.check(prescription, settings, earlier.maxima)
  const begin = () => attempt(() => screens.begin(day.prescription))
  screens.show(
    <TextScreen
      text={() => checked}
      keys={[{ key: 'Enter', label: 'begin', does: 'begins the day', acts: { enter: begin } }]}
      leave={{ label: 'back', act: () => screens.back(path) }}
    />,
  )
  return null
}

function showMorning({ logbook: { directory }, show, back }: Screens): void {
  show(
    <AskScreen
      label="morning"
      words={() => morningOn(directory, todayOf(new Date())).text().trim()}
      hint={morningHint}
      take={(typed) => takeMorning(directory, typed)}
      placeholder="Enter: back"
      leave={{ label: 'back', act: () => back(null) }}
    />,
  )
}
