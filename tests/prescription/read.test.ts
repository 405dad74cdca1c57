import { expect, test } from 'vitest'
import { headerNames } from '../../src/prescription/headers.ts'
import { printDiagnostics } from '../../src/prescription/lines.ts'
import { itemsOf, printItem } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { partKinds } from '../../src/prescription/words.ts'

/* What the notation reads, and how it is printed, which reads and prints the same again. */

function printed(part: string, line: string): string {
  const head = 'Day\nunits: km kg\ngoal: 10 km in 39:30\nmax: squat 100 kg\n'
  const reading = readPrescription(`${head}${part}\n${line}`)
  if ('problems' in reading) return printDiagnostics(reading.problems, 'day.txt')
  const other = reading.warnings.filter(({ message }) => !message.startsWith('no exercise of this day'))
  if (other.length > 0) return printDiagnostics(other, 'day.txt')
  return itemsOf(reading.prescription.parts[0]!).map(printItem).join('\n')
}

test.each<[line: string, answer?: string]>([
  ['2x(4x200m in 33-35s,jog 200m),walk 3:00', '2 x (4 x 200 m in 33-35 s, jog 200 m), walk 3:00'],
  ['5 km at goal', '5 km @ goal'],
  ['3 km tempo'],
  ['tempo 3 km', '3 km tempo'],
  ['1 mile @ rpe 8', '1 mi @ rpe 8'],
  ['10 min @ hr 150-160', '10:00 @ hr 150-160'],
  ['5 km @ 14-15 km/h'],
  ['5 km @ 8.5mph', '5 km @ 8.5 mph'],
  ['6 x 90 s hard, walk back', '6 x 1:30 hard, walk back'],
  ['5 km @ 4:10-4:05', '5 km @ 4:05-4:10/km'],
  ['5 km NEGATIVE', '5 km, negative'],
  ['5 km negative split', '5 km, negative'],
  ['half marathon race'],
  ['10K trial', '10 km trial'],
  ['4 x 100 m strides'],
  ['5km all out', '5 km all out'],
  ['2 km warm-up'],
  ['400 m in 1:28.4'],
  ['5 x 1000 m @ 1:50-2:00/500 m, rest 1:00'],
  ['3 x (1 km @ 3:50, jog 400 m)', '3 x (1 km @ 3:50/km, jog 400 m)'],
  ['6 x (3 min hard, jog 2 min)', '6 x (3:00 hard, jog 2:00)'],
  ['8 x 1 lap in 80-85 sec, stand 1:00', '8 x 1 lap in 80-85 s, stand 1:00'],
  [
    '5 mi hr 140-150, lane 3, grade 1.5%, "windy", "again"',
    '5 mi, lane 3, grade 1.5%, hr 140-150, "windy", "again"',
  ],
  ['1.5 h easy', '1:30:00 easy'],
  ['45 mins easy', '45:00 easy'],
  ['200-400-800-400-200 m'],
  ['1-2-3-2-1 min hard'],
  ['2 x (jog 200 m, 400 m fast, 3 x 100 m strides, walk back, walk 200 m)'],
  ['5 km @ 4:05 – 4:10 / km', '5 km @ 4:05-4:10/km'],
  ['5 × 400 m in 1:20', '5 x 400 m in 1:20'],
  ['3 x 1 mi @ 6:15 / mi jog 400 m', '3 x 1 mi @ 6:15/mi, jog 400 m'],
  ['440 yd fast'],
  ['5 km split 1 km hr 150 "x" negative', '5 km, split 1 km, negative, hr 150, "x"'],
  ['4 x 400 m at 3:20', '4 x 400 m @ 3:20/km'],
  ['1 x 5 km @ 4:00', '1 x 5 km @ 4:00/km'],
  ['10 km @ 4:00-5:00/mi'],
  ['3 x 1 km in 220/215-218/210 s', '3 x 1 km in 3:40/3:35-3:38/3:30'],
  // A list for one set is for every set.
  [
    '2 x (2 x 400 m in 80/78 s, jog 200 m), walk 3:00',
    '2 x (2 x 400 m in 80/78/80/78 s, jog 200 m), walk 3:00',
  ],
  ['40 min @ hr < 140', '40:00 @ hr under 140'],
  ['6 x 400 m, rest 0', '6 x 400 m'],
])('run: %s', (line, answer = line) => {
  for (const each of [line, answer]) expect(printed('run', each)).toBe(answer)
})

test.each<[line: string, answer?: string]>([
  ['lunge 3 x 8/side', 'lunge 3 x 8 each side'],
  ['lunge 3 x 8 /side @ 20 kg', 'lunge 3 x 8 each side @ 20 kg'],
  ['squat 3 x 5 rpe 8', 'squat 3 x 5 @ rpe 8'],
  ['squat 3x5@100kg rpe 8-9', 'squat 3 x 5 @ 100 kg rpe 8-9'],
  ['squat 1 x 1 @ rpe 8'],
  ['press 3 x 8 @ 2x22.5 kg'],
  ['press 3 x 8 @ 2 x 22.5', 'press 3 x 8 @ 2x22.5 kg'],
  ['pull-up 4 x 6 @ +10 kg', 'pull-up 4 x 6 @ bodyweight+10 kg'],
  ['pull-up 4 x 6 @ + 10 kg', 'pull-up 4 x 6 @ bodyweight+10 kg'],
  ['pull-up 4 x 6 @ bw-20', 'pull-up 4 x 6 @ bodyweight-20 kg'],
  ['pull-up 8/8/6 @bw/bw+5/bw+10 kg', 'pull-up 8/8/6 @ bodyweight/bodyweight+5 kg/bodyweight+10 kg'],
  ['squat 10/8/6 @ 60/65/70 kg'],
  ['squat 3 x 5 @ 62/70/78%'],
  ['squat 4 x (2+2)'],
  ['squat 4 x (2+2+max), pause 15 s'],
  ['squat 7/5/4+ @ 62/70/78%, build from 40 kg'],
  ['squat 3 x 5+ + row 3 x 8'],
  ['pull-up 3 x max'],
  ['pull-up 3 x AMRAP', 'pull-up 3 x max'],
  ['squat 5 x 5 @ 135 pounds', 'squat 5 x 5 @ 135 lb'],
  ['squat 5x5 at 100kgs', 'squat 5 x 5 @ 100 kg'],
  ['squat 5 x 5 @ 92.5 rest 2 min', 'squat 5 x 5 @ 92.5 kg, rest 2:00'],
  ['squat 4 x (2+2) @ 140 kg pause 15 s rest 3:00', 'squat 4 x (2+2) @ 140 kg, pause 15 s, rest 3:00'],
  ['bench 2 board 3 x 3', 'bench 2 board: 3 x 3'],
  ['90/90 hip lift 3 x 8', '90/90 hip lift: 3 x 8'],
  ['5 rounds: 5+ pull-up, 10 push-up', 'pull-up 5 x 5+ + push-up 5 x 10'],
  [
    '3 rounds of 10 push-up, 30 s plank each side, max dip @ bw+5 kg, rest 1:00',
    'push-up 3 x 10 + plank 3 x 30 s each side + dip 3 x max @ bodyweight+5 kg, rest 1:00',
  ],
  ['3 rounds 8-10 row @ 50 kg, 40 m carry @ 2x24 kg', 'row 3 x 8-10 @ 50 kg + carry 3 x 40 m @ 2x24 kg'],
  ['pull-up 4 x 6 @ bw + 90/90 hip lift 3 x 8', 'pull-up 4 x 6 @ bodyweight + 90/90 hip lift: 3 x 8'],
  ['pull-up 4 x 6 @ bodyweight + 10 kg, rest 1:00', 'pull-up 4 x 6 @ bodyweight+10 kg, rest 1:00'],
  ['tempo squat 3 x 5, tempo 31x1', 'tempo squat 3 x 5, tempo 31X1'],
  ['carry 3 x 40 m each arm @ 24 kg'],
  ['split squat 3 x 8 @ 20 kg, each leg', 'split squat 3 x 8 each leg @ 20 kg'],
  [
    'bench 3 x 8 @ 60 kg + row 3 x 8 @ 20 kg each side, rest 2:00',
    'bench 3 x 8 @ 60 kg + row 3 x 8 each side @ 20 kg, rest 2:00',
  ],
  [
    'a 3 x 8 + b 3 x 8 each arm + c 2 x 5, each side, pause 0:10',
    'a 3 x 8 each side + b 3 x 8 each arm + c 2 x 5 each side, pause 10 s',
  ],
  ['squat 3 x 5, rest 2-3 min', 'squat 3 x 5, rest 2:00-3:00'],
  ['squat 3 x 5, rest 120-90 s', 'squat 3 x 5, rest 1:30-2:00'],
  ['squat 5 x 5 @ 100-90 kg', 'squat 5 x 5 @ 90-100 kg'],
  ['squat 10 x 2 @ 60 kg, every 1:00'],
  ['hang 3 x 45 s'],
  ['hang 30/20 s', 'hang 30 s/20 s'],
  ['squat 1 x 20'],
  ['bench press: 3x8–10 @ 60', 'bench press 3 x 8-10 @ 60 kg'],
  ['farmer’s walk 4 x 40m', "farmer's walk 4 x 40 m"],
  ['squat 5 x 5 @ 60 kg, "slow, not fast # 1"   # comment', 'squat 5 x 5 @ 60 kg, "slow, not fast # 1"'],
  ['squat 5 x 5 @ 60 kg #not a comment? yes after a space', 'squat 5 x 5 @ 60 kg'],
  ['Max effort bench 3 x 3 @ 100', 'Max effort bench 3 x 3 @ 100 kg'],
  ['rest pause curl 3 x 8'],
  ['squat 3 x 8-8', 'squat 3 x 8'],
  ['deadlift 3 x 3 @ 60-70%'],
  ['squat (2+2)/(1+1) @ 100/110 kg, pause 10 s'],
  [
    'squat: 1 x 5 @ 140 kg; 2 x 5 @ 120 kg, rest 3:00',
    'squat: 1 x 5 @ 140 kg then 2 x 5 @ 120 kg, rest 3:00',
  ],
  // 15 % off 140 kg is 119 kg, to the nearest 2.5 kg.
  ['squat 1 x 5 @ 140 kg then 2 x 5 @ -15%', 'squat: 1 x 5 @ 140 kg then 2 x 5 @ 120 kg'],
  ['dip 1 x 5 @ 90% then 2 x 5 @ -15%', 'dip: 1 x 5 @ 90% then 2 x 5 @ 76.5%'],
  ['squat 1 x 1 @ rpe 8 then 3 x 5 @ 100 kg rpe 7', 'squat: 1 x 1 @ rpe 8 then 3 x 5 @ 100 kg rpe 7'],
  ['lunge 1 x 5 then 1 x 3 @ 80 kg', 'lunge: 1 x 5 then 1 x 3 @ 80 kg'],
  // The mark of a list is no part of a name.
  ...['A1: ', '1: ', 'A1) ', 'B) ', '- '].map((mark): [string, string] => [
    `${mark}squat 3 x 5`,
    'squat 3 x 5',
  ]),
  // Loads after the first are added to the body, or in pairs, as it is.
  ['pull-up 5/4/3+ @ +10/5/2.5 lb', 'pull-up 5/4/3+ @ bodyweight+10 lb/bodyweight+5 lb/bodyweight+2.5 lb'],
  ['pull-up 5/4 @ bw-20/10 kg', 'pull-up 5/4 @ bodyweight-20 kg/bodyweight-10 kg'],
  ['pull-up 5/4 @ bw/5 kg', 'pull-up 5/4 @ bodyweight/5 kg'],
  ['press 8/6 @ 2x20/22.5 kg', 'press 8/6 @ 2x20 kg/2x22.5 kg'],
  ['press 8/6 @ 2x20 kg/40 kg'],
  ['split squat each leg 3 x 8 @ 40 kg', 'split squat 3 x 8 each leg @ 40 kg'],
  ['row each arm: 3 x 8 @ 20 kg', 'row 3 x 8 each arm @ 20 kg'],
  ['row per arm 3 x 8 + split squat/leg 3 x 8', 'row 3 x 8 each arm + split squat 3 x 8 each leg'],
  ['squat 4x4 @ last time + 2.5', 'squat 4 x 4 @ last + 2.5 kg'],
  ['squat 4 x 4 @ last - 5 lb, rest 2:00'],
  ['squat 4 x 4 @ same as last time', 'squat 4 x 4 @ last'],
  ['drop set curl 3 x 12/10/8 @ 20/15/10 kg, rest 2:00', 'curl 3 x (12 > 10 > 8) @ 20/15/10 kg, rest 2:00'],
  ['curl 3 x (12>10)', 'curl 3 x (12 > 10)'],
  ['curl: 2 x 10 @ 20 kg then 1 x (10 > 8) @ 20/15 kg'],
  ['12 min of: 40 meters carry, 30 seconds plank', '12 min of: 40 m carry, 30 s plank'],
  ['for time: 1 round of 50 burpee, 400 m run', 'for time: 50 burpee, 400 m run'],
  ['every 1:00 for 12 min: 3 power clean @ 70 kg', 'power clean 12 x 3 @ 70 kg, every 1:00'],
  ['EMOM 12: 3 power clean 70kg', 'power clean 12 x 3 @ 70 kg, every 1:00'],
  ['E2MOM 10: 3 power clean @ 70 kg', 'power clean 5 x 3 @ 70 kg, every 2:00'],
])('lift: %s', (line, answer = line) => {
  for (const each of [line, answer]) expect(printed('lift', each)).toBe(answer)
})

test.each<[line: string, answer?: string]>([
  ['foam roll 3:00'],
  ['leg swings 2 x 10 each side'],
  ['90/90 hip 10'],
  ['breathing'],
  ['hip circles each side'],
  ['couch stretch 1 min each leg, "slow"', 'couch stretch 1:00 each leg, "slow"'],
  ['skip 2 x 50 m'],
  ['foam roll: 3 min', 'foam roll 3:00'],
])('prep: %s', (line, answer = line) => {
  for (const each of [line, answer]) expect(printed('prep', each)).toBe(answer)
})

test.each<[line: string, answer?: string]>([
  ['before 2 h: carbs 75 g, protein 20 g, fat 10 g, "porridge and fruit"'],
  ['after: carbs 80g', 'after: carbs 80 g'],
  ['between 1:00: 120 kcal', 'between 1 h: 120 kcal'],
  ['before 1:30: carbs 75 g', 'before 90 min: carbs 75 g'],
  ['before 1h30: carbs 60 g, "toast + jam"', 'before 90 min: carbs 60 g, "toast + jam"'],
  ['before 90 min: "coffee"'],
  ['after: carbs 0 g'],
])('fuel: %s', (line, answer = line) => {
  for (const each of [line, answer]) expect(printed('fuel', each)).toBe(answer)
})

function problemsOf(text: string): string[] {
  const reading = readPrescription(text)
  return 'problems' in reading ? reading.problems.map(({ message }) => message) : []
}

test.each(partKinds)('the grammar knows the part %s', (kind) => {
  expect(problemsOf(`Day\n\n${kind}: here`)).toEqual([
    `this ${kind} part has no items: write one below it, or remove the part`,
  ])
})

test.each(headerNames)('the grammar knows the header %s', (name) => {
  expect(problemsOf(`Day\n${name}: ?\n\nlift\n  squat 5 x 5`).join()).not.toMatch(/no header|needs a heading/)
})
