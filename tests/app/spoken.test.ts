import { expect, test } from 'vitest'
import { showDecisions } from '../../src/app/nextDay.ts'
import { speakerOf } from '../../src/app/openSpoken.ts'
import { Speech } from '../../src/app/speech.ts'
import { createRecorderStore } from '../../src/recorder/store.ts'
import { momentAfter } from '../../src/session/clock.ts'
import { plainFoods, readFoods } from '../../src/session/entry/fuel.ts'
import { letterKey } from '../../src/ui/widgets/screenKeys.ts'
import { walkThrough } from '../day.ts'

/* When a screen reader announces what a letter did: this program's own rule. */

const straight = 'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
const meal = 'Meals\n\nfuel\n  after: carbs 80 g\n'

/** A speaker over a day, with its output and a clock of its own. */
function listening(day: string) {
  const { foods } = readFoods(`${plainFoods}quinoa 100 g: 21.3 C 4.4 P 1.9 F\n`)
  const walked = walkThrough(day, { context: { foods: () => foods } })
  let { now } = walked
  let heard = ''
  let left = false
  const store = createRecorderStore(walked.model, {
    now: () => now,
    append: () => ({ ok: true }),
    retry: () => ({ ok: true }),
    ring: () => {},
    leave: () => {
      left = true
    },
  })
  const { speak, take } = speakerOf(store, {
    write: (text) => {
      heard += text
    },
    steer: () => {},
  })
  store.subscribe(speak)
  speak()
  heard = ''
  /** Lets seconds pass; the program wakes when something changes. */
  const wait = (seconds: number) => {
    const until = momentAfter(now, seconds)
    for (let next = store.wakeIn(); next <= until.wall - now.wall; next = store.wakeIn()) {
      now = momentAfter(now, next / 1000)
      store.tick()
    }
    now = until
  }
  return {
    store,
    wait,
    take: (text: string) => take([{ kind: 'text', text }]),
    enter: () => take([{ kind: 'named', name: 'enter' }]),
    escape: () => take([{ kind: 'named', name: 'escape' }]),
    control: (letter: string) => take([{ kind: 'named', name: `ctrl+${letter}` }]),
    heard: () => {
      const all = heard
      heard = ''
      return all
    },
    isLeft: () => left,
  }
}

test('ctrl-u empties the field, and ctrl-w takes its last word, as on the screen', () => {
  const listener = listening(straight)
  for (const letter of '4 @9') listener.take(letter)
  listener.control('w')
  expect(listener.store.get().draft).toBe('4 ')
  listener.control('u')
  expect(listener.store.get().draft).toBe('')
})

test('a control key that does nothing is silent, in a question too', () => {
  const listener = listening(straight)
  listener.enter()
  expect(listener.store.get().mode.kind).toBe('question')
  listener.heard()
  listener.control('a')
  expect(listener.heard()).toBe('')
})

test.each([
  [straight, 'failed'],
  [straight, 'skip'],
  [straight, 'pain'],
  [straight, 'same'],
  [straight, 'hr'],
  [meal, 'egg'],
  [meal, 'sugar'],
  [meal, 'honey'],
  [meal, 'quinoa'],
])('only the word is announced when it is typed slowly: %s %s', (day, word) => {
  const listener = listening(day)
  for (const letter of word) {
    listener.take(letter)
    listener.wait(1.9)
  }
  expect(listener.heard()).toBe(word)
  expect(listener.isLeft()).toBe(false)
  expect(listener.store.get()).toMatchObject({ draft: word, mode: { kind: 'recording' } })
})

test('a command whose letter may begin a word is announced after two seconds', () => {
  const listener = listening(straight)
  listener.take('f')
  listener.wait(1.9)
  expect(listener.heard()).toBe('')
  listener.wait(0.2)
  expect(listener.heard()).toMatch(/^how hard was the lift, as a whole\?$/m)
})

test('a command is announced at once when the next key shows that it is not a word', () => {
  const listener = listening(straight)
  listener.take('f')
  expect(listener.heard()).toBe('')
  listener.take('7')
  expect(listener.heard()).toMatch(/^how hard was the lift, as a whole\?$[\s\S]*^7$/m)
})

test('a command whose letter begins no word is announced at once', () => {
  const listener = listening(straight)
  listener.take('u')
  expect(listener.heard()).toMatch(/^nothing to undo/)
})

test('letters that are not commands are echoed as they are typed', () => {
  const listener = listening(straight)
  listener.take('r')
  expect(listener.heard()).toBe('r')
  listener.take('p')
  expect(listener.heard()).toBe('p')
})

test('x before a load announces no list of exercises', () => {
  const listener = listening(straight)
  listener.take('x')
  listener.wait(1)
  listener.take(' ')
  expect(listener.heard()).toBe('x ')
})

/** The output and the saved days when the decisions about the next day are answered like this, one after the other. */
async function decided(...answers: string[]) {
  const said: string[] = []
  const saved: [string[], number][] = []
  const rows = [
    { id: '0.0', text: 'bench press: complete at 8' },
    { id: '0.1', text: 'front squat: complete at 8' },
  ]
  const save = (taken: ReadonlySet<string>, days: number) => {
    saved.push([[...taken], days])
    return days === 1 && saved.length === 1 ? 'the disk is full' : null
  }
  const speech = new Speech((line) => said.push(line))
  const given = { rows, dateText: (days: number) => `day ${days}`, earliest: -7, save }
  showDecisions(given, speech.show, () => said.push('left'))
  for (const answer of answers) {
    speech.say()
    await speech.take(answer)
  }
  return { said: said.filter((line) => !line.startsWith('Type a number')), saved }
}

test('Enter accepts a decision about the next day, a dash rejects it, and the day is saved for its date', async () => {
  const { said, saved } = await decided('', 'what', '-', '>', '>', '<', 'tomorrow', '')
  expect(saved).toEqual([[['0.0'], 1]])
  expect(said).toEqual([
    'Next time: + accepted, - rejected',
    '1: bench press: complete at 8',
    '2: front squat: complete at 8',
    '3: save for day 0',
    '2: front squat: complete at 8',
    'Invalid answer "what".',
    '3: save for day 0',
    'lines you do not accept stay as they are',
    ...[1, 2, 1].flatMap((days) => [`3: save for day ${days}`, 'lines you do not accept stay as they are']),
    'Invalid answer "tomorrow".',
    'the disk is full',
  ])
})

test('a key that asks acts when it is typed again, and other screens are said with their titles', async () => {
  const said: string[] = []
  const speech = new Speech((line) => said.push(line))
  const remove = { ...letterKey('d', 'delete', 'deletes it', () => 'deleted'), asks: 'd again deletes' }
  const leave = { label: 'back', act: () => {} }
  speech.show({ kind: 'text', title: 'A page', text: () => 'one\n', keys: [remove], leave })
  speech.say()
  for (const answer of ['d', 'x', 'd', 'd']) await speech.take(answer)
  expect(said).toEqual([
    'A page\none',
    'd delete, q back, ? keys',
    'd again deletes',
    'Invalid answer "x".',
    'd again deletes',
    'deleted',
  ])
})

test('a question about one row of a list names the row, and is not answered by the same key for another one', async () => {
  const said: string[] = []
  const speech = new Speech((line) => said.push(line))
  const rows = ['one', 'two'].map((id) => ({ id, lines: () => [id] }))
  const keys = (index: number) => [
    { ...letterKey('d', 'delete', 'deletes it', () => `deleted ${index}`), asks: 'd again deletes' },
  ]
  speech.show({ kind: 'list', head: () => [], rows, keys, picked: null })
  for (const answer of ['d 1', 'd 2', 'd']) await speech.take(answer)
  expect(said).toEqual(['1: one', 'd again deletes', '2: two', 'd again deletes', 'deleted 1'])
})

test('a line of a list is picked by its number, one that does not exist is refused, and q leaves', async () => {
  expect((await decided('2', '3')).saved).toEqual([[['0.1'], 0]])
  const { said, saved } = await decided('4', '- 1', 'q')
  expect(said).toContain('Invalid answer "4".')
  expect(said).toContain('2: front squat: complete at 8')
  expect(said.at(-1)).toBe('left')
  expect(saved).toEqual([])
})
