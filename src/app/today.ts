import { attempt } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import type { IndexEntry } from '../logbook/model.ts'
import { dayOrMessage } from '../logbook/ownTexts.ts'
import { foreignBellText, isOwnBell, readSettings } from '../logbook/settings.ts'
import type { Logbook } from '../logbook/store.ts'
import { dueOf, type Plan, placeInPlan, wordsOn } from '../plan/model.ts'
import { lastLoadsOf } from '../progress/earlierLoads.ts'
import { recentPains } from '../progress/pain.ts'
import { plainOf } from '../summary/plain.ts'
import { enterKey, keysKey, letterKey, pickKey, type ScreenKey, signalKey } from '../ui/widgets/screenKeys.ts'
import { screenLinesUpTo } from '../ui/widgets/wrapped.ts'
import { printDate } from '../units/calendarDate.ts'
import { joined } from '../units/lists.ts'
import { type Choice, choicesOf } from './choices.ts'
import { editDay, showModels } from './days.ts'
import { planText } from './dayText.ts'
import { showHistory, showProgress } from './lookBack.ts'
import { morningHint, morningOn, takeMorning } from './morning.ts'
import { closeAsItIs } from './recording.ts'
import type { Screens } from './screens.ts'
import { weekAndPlan } from './weekAndPlan.ts'

/** Shows the first screen.
 * @param picked the path or id of the picked choice; null for the first one */
export function showToday(screens: Screens, picked: string | null, notice: string | null): void {
  const { logbook, samples, env, back } = screens
  const now = new Date()
  // Read once for each time the screen is shown: the index of many years takes a second.
  const known = screens.known()
  const { entries, settings } = known
  const choices = choicesOf(known, samples, now)
  const { bell, rotation } = settings
  const foreignBell = Array.isArray(bell) && !isOwnBell(bell, env) ? foreignBellText(bell) : ''
  const due = joined('   ', ['Pausebook', dueText(entries, rotation), plannedText(known.plan, known.today)])
  const pains = recentPains(known.pains, known.today).map(({ place, text }) => `${plainOf(place)}: ${text}`)
  const newDay = () => showModels(choices, known, screens)
  screens.show({
    kind: 'list',
    head: (columns) => {
      const head = screenLinesUpTo(2, due, columns)
      if (pains.length > 0) return [...head, ...screenLinesUpTo(2, pains.join('   '), columns)]
      return head.length === 1 ? [...head, ''] : head
    },
    rows: choices.map(({ id, when, title, detail }) => ({
      id,
      lines: () => [`${when.padEnd(whenWidth)}${title}`, `  ${detail()}`],
    })),
    // Who comes back to a session goes on with it, and need not wait for what the days hold.
    isSlow: picked === null && choices[0]?.kind === 'unfinished',
    keys: (index) => {
      const chosen = choices[index]
      const [enter = [], ...others] = chosen === undefined ? [] : keysOf(chosen, screens)
      return [
        enter,
        { ...pickKey, does: 'pick a day', isOnPageOnly: true as const },
        keysKey,
        ...others,
        letterKey('n', 'new', 'writes a new day, empty or like an earlier one', newDay),
        ...keysOfAll(screens),
      ].flat()
    },
    picked,
    notice: notice ?? '',
    usual: () =>
      joined('; ', [
        choices.length === 0 && 'No day is in the logbook yet: n writes one.',
        damageText(logbook) ?? foreignBell,
      ]),
    // Left open overnight, it becomes that of the next day.
    eachMinute: (id) => {
      if (todayOf(new Date()) !== known.today) back(id)
    },
  })
}

/** Columns in front of the title: `Sat 28 Nov`. */
const whenWidth = 12

/** The keys of the chosen day or session, Enter first; none for a session that another program records. */
function keysOf(chosen: Choice, screens: Screens): ScreenKey[] {
  const { logbook, back } = screens
  const { id } = chosen
  if (chosen.kind === 'day') {
    const edit = () => editDay({ path: id }, screens)
    const open = () => showDay(id, screens)
    const enter = enterKey('open', 'opens the day, laid out; Enter again begins it', open, ' ')
    return chosen.sample ? [enter] : [enter, letterKey('e', 'edit', 'edits the chosen day', edit)]
  }
  if (!chosen.mayResume) return []
  const close = () => back(id, attempt(() => closeAsItIs(logbook, id)) ?? 'closed as it was')
  const remove = () => back(id, attempt(() => logbook.open(id).discard()) ?? 'deleted')
  return [
    enterKey('go on', 'goes on with the unfinished session', () => screens.resume(id), ' '),
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

/** The keys that have nothing to do with the chosen day. */
function keysOfAll(screens: Screens): ScreenKey[] {
  const { ring, leave } = screens
  const progress = () => showProgress(screens)
  const morning = () => showMorning(screens)
  return [
    letterKey('h', 'history', 'the sessions, each with its summary', () => showHistory(screens)),
    letterKey('g', 'progress', 'how lifts, running and load have gone over the weeks', progress),
    letterKey('w', 'week', 'what is done and ready this week, and the plan', () => showWeek(screens)),
    letterKey('m', 'morning', 'takes sleep, resting heart rate, body mass, soreness', morning),
    { ...signalKey(() => ring('long')), isOnPageOnly: true },
    letterKey('q', 'quit', 'quits', leave),
  ]
}

function showWeek({ known, show, back }: Screens): void {
  const now = known()
  const text = (columns: number) => weekAndPlan(now, columns)
  show({ kind: 'text', text, keys: [], leave: { label: 'back', act: () => back(null) } })
}

/** Shows a day laid out, ready to begin. Returns a message if it cannot be read. */
function showDay(path: string, screens: Screens): string | null {
  const known = screens.known()
  const day = dayOrMessage(path, known.defaults)
  if ('message' in day) return day.message
  const lastLoads = lastLoadsOf(day.prescription, known, known.today)
  const checked = planText(day.prescription, known.settings, known.maxima, lastLoads, known.asked)
  screens.show({
    kind: 'text',
    text: () => checked,
    keys: [enterKey('begin', 'begins the day', () => screens.begin(day.prescription))],
    leave: { label: 'back', act: () => screens.back(path) },
  })
  return null
}

function showMorning({ logbook: { directory }, known, show, back }: Screens): void {
  const { asked, units } = known()
  show({
    kind: 'ask',
    label: 'morning',
    words: () => morningOn(directory, todayOf(new Date()), asked.mass).text().trim(),
    hint: morningHint(units.mass),
    take: (typed) => takeMorning(directory, typed),
    placeholder: 'Enter: back',
    leave: { label: 'back', act: () => back(null) },
  })
}

/** The damage found so far, in the settings and the mornings too, in one line for the picker; null if there is none. */
export function damageText({ damages, directory }: Pick<Logbook, 'damages' | 'directory'>): string | null {
  const [first, ...others] = [...damages, ...readSettings(directory).damages]
  if (!first) return null
  const more = others.length > 0 ? ` and ${others.length} more` : ''
  return `damaged: ${first.file}${more}; "pausebook verify" says what is wrong`
}

/** The kind of day that is due by the rotation in the settings: `due: push, after legs on 24 Nov`; null without one.
 * @param entries newest first */
export function dueText(entries: readonly IndexEntry[], rotation: readonly string[]): string | null {
  const due = dueOf(rotation, entries)
  if (!due) return null
  return due.last === null
    ? `due: ${due.kind}`
    : `due: ${due.kind}, after ${due.last.kind} on ${printDate(due.last.date, 'd MMM')}`
}

/** `Thursday of week 3 of 19, 115 days to 10 km in 39:30   plan: tempo + legs`; null if the plan does not mention the day.
 * What is for today comes last, because a narrow screen leaves out the middle.
 * @param date local, YYYY-MM-DD */
export function plannedText(plan: Plan | null, date: string): string | null {
  if (plan === null) return null
  const words = wordsOn(plan, date).join(' + ')
  return plainOf(joined('   ', [placeInPlan(plan, date), words !== '' && `plan: ${words}`])) || null
}
