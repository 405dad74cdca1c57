import { actOn, leavingKey, type ScreenKey } from '../ui/widgets/screenKeys.ts'
import { joined, pickedIndex } from '../units/lists.ts'
import type { Screen } from './screens.ts'

/** The width for which texts are broken into lines. */
const columns = 100
/** How many rows of a list are said. All of them can be opened by their numbers. */
const mostRows = 50

type Of<Kind> = Extract<Screen, { kind: Kind }>

/** Says screens instead of drawing them, and takes their keys as lines: Enter, a letter, the number of a row. */
export class Speech {
  readonly #say: (line: string) => void
  #shown: Screen | null = null
  #heard: Screen | null = null
  /** The ids of the list said last. */
  #rows = ''
  /** The row of a list to which keys apply. */
  #picked = 0
  /** What the last answer led to: a key that asks acts if that is its question. */
  #told = ''
  #onShown: () => void = () => {}

  constructor(say: (line: string) => void) {
    this.#say = say
  }

  get shown(): Screen | null {
    return this.#shown
  }

  readonly show = (screen: Screen): void => {
    this.#shown = screen
    this.#picked = screen.kind === 'list' ? pickedIndex(screen.rows, ({ id }) => id === screen.picked) : 0
    this.#onShown()
  }

  /** Resolves when another screen is shown. */
  replaced(): Promise<void> {
    return new Promise((resolve) => {
      this.#onShown = resolve
    })
  }

  /** Says the screen, unless it was said before, and what can be answered. */
  say(): void {
    const screen = this.#shown
    const isNew = screen !== this.#heard
    if (screen?.kind === 'ask') {
      this.#say(isNew ? `${screen.words()}\n${screen.hint}` : screen.words())
      this.#say(`${screen.label}: ${screen.placeholder}`)
    } else if (screen?.kind === 'editor') {
      this.#say('Days are written in an editor of your own: set VISUAL or EDITOR to its command.')
      screen.leave()
      this.say()
    } else if (screen?.kind === 'text') {
      if (isNew) this.#say(joined('\n', [screen.title ?? '', screen.text(columns).trim()]))
      this.#say(hintsOf(this.#keys(screen)))
    } else if (screen?.kind === 'list') {
      if (isNew) this.#sayList(screen)
      this.#say(`Type a number, or: ${hintsOf(this.#keys(screen))}`)
    }
    this.#heard = this.#shown
  }

  /** Says a list, or only its picked row if the last list had the same rows. */
  #sayList({ head, rows, notice, usual }: Of<'list'>): void {
    const before = this.#rows
    this.#rows = rows.map(({ id }) => id).join('\n')
    const said = rows.slice(0, mostRows).map((_, index) => rowText(rows, index))
    const isKnown = rows.length > 0 && before === this.#rows
    const lines = isKnown ? [rowText(rows, this.#picked)] : [...head(columns, this.#picked), ...said]
    for (const line of [...lines, usual?.(this.#picked), notice]) if (line) this.#say(line)
  }

  #keys(screen: Of<'text' | 'list'>): readonly ScreenKey[] {
    if (screen.kind === 'list') return screen.keys(this.#picked)
    return [...screen.keys, leavingKey(screen.leave.label, screen.leave.act)]
  }

  /** Does what a line means on the current screen. */
  async take(answer: string): Promise<void> {
    const screen = this.#shown
    let message: unknown = null
    if (answer === '?' && (screen?.kind === 'text' || screen?.kind === 'list'))
      message = keysPage(this.#keys(screen))
    else if (screen?.kind === 'ask') message = answer === '' ? screen.leave.act() : screen.take(answer)
    else if (screen?.kind === 'text' || screen?.kind === 'list') message = await this.#act(screen, answer)
    this.#told = typeof message === 'string' ? message : ''
    if (this.#told !== '') this.#say(this.#told)
  }

  #act(screen: Of<'text' | 'list'>, answer: string): unknown {
    const [, letter = '', number = ''] = /^(\D?) ?(\d*)$/.exec(answer) ?? ['', answer]
    const row = number === '' ? this.#picked : Number(number) - 1
    const isRow = number === '' || (screen.kind === 'list' && row in screen.rows)
    // The last question was about another row.
    if (row !== this.#picked) this.#told = ''
    if (isRow) this.#picked = row
    const keys = isRow ? this.#keys(screen) : []
    // Enter leaves a text from which nothing follows.
    const entering = screen.kind === 'text' ? ['enter', 'q'] : ['enter']
    const names = letter === '' ? entering : [letter]
    const name = names.find((each) => keys.some(({ acts }) => Object.hasOwn(acts, each)))
    if (name === undefined) return `Invalid answer "${answer}".`
    const message = actOn(keys, name, this.#told)
    // Otherwise nobody would hear which row the question is about.
    const isQuestion = typeof message === 'string' && keys.some(({ asks }) => asks === message)
    if (isQuestion && screen.kind === 'list') this.#say(rowText(screen.rows, row))
    return message
  }
}

/** `2: Sat 28 Nov Push, 22 sets, about 47 min` */
function rowText(rows: Of<'list'>['rows'], index: number): string {
  return `${index + 1}: ${rows[index]?.lines(columns).join(', ').replace(/\s+/g, ' ').trim()}`
}

/** The keys that are lines here, with the names by which they are typed: `Enter`, `< >`. */
function spokenKeys(keys: readonly ScreenKey[]): { names: string; key: ScreenKey }[] {
  return keys.flatMap((key) => {
    const letters = Object.keys(key.acts).filter((name) => /^\S$/.test(name))
    const names = 'enter' in key.acts ? 'Enter' : letters.join(' ')
    return names === '' ? [] : { names, key }
  })
}

/** `Enter open, e edit, q quit` */
function hintsOf(keys: readonly ScreenKey[]): string {
  const hinted = spokenKeys(keys.filter(({ isOnPageOnly }) => !isOnPageOnly))
  return [...hinted.map(({ names, key }) => `${names} ${key.label}`), '? keys'].join(', ')
}

/** All keys, one a line: `e: edits the chosen day`. */
function keysPage(keys: readonly ScreenKey[]): string {
  return spokenKeys(keys)
    .map(({ names, key }) => `${names}: ${key.does}`)
    .join('\n')
}
