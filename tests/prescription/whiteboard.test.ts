import { describe, expect, it } from 'vitest'
import { printPrescription } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'

/* Lines as they stand on a whiteboard; all invented. None may lose the recovery on its way into the notation. */

function problemsOf(part: string, line: string) {
  const reading = readPrescription(`Tuesday\n\n${part}\n  ${line}\n`)
  return 'problems' in reading ? reading.problems : []
}

function offered(part: string, line: string): string | null {
  const suggestion =
    problemsOf(part, line)
      .map((problem) => problem.suggestion)
      .find((each) => each !== null) ?? null
  if (suggestion !== null) expect(problemsOf(part, suggestion)).toEqual([])
  return suggestion
}

describe('what stands in brackets', () => {
  it.each([
    ['run', '5 x 3 min hard (2 min easy)', '5 x (3:00 hard, 2:00 easy)'],
    ['run', '6 x 800 m @ 4:20 (90 s rest)', '6 x 800 m @ 4:20/km, rest 1:30'],
    ['run', '6 x 800 m (90 s rest) @ 4:20', '6 x 800 m @ 4:20/km, rest 1:30'],
    ['run', '8 x 400 m (jog 200)', '8 x 400 m, jog 200 m'],
    ['run', '8 km easy (hr under 140)', '8 km easy, hr under 140'],
    ['run', '6 km easy (4 x 100 m strides)', '6 km easy\n  4 x 100 m strides'],
    ['lift', 'squat 5 x 5 @ 100 kg with belt', 'squat 5 x 5 @ 100 kg, "with belt"'],
    ['lift', 'bench 3 x 8 @ 60 kg (rest 2 min)', 'bench 3 x 8 @ 60 kg, rest 2:00'],
    ['lift', 'bench 3 x 8 (2 min rest) @ 60 kg', 'bench 3 x 8 @ 60 kg, rest 2:00'],
    ['lift', 'split squat 3 x 8 (each leg) @ 2x12 kg', 'split squat 3 x 8 each leg @ 2x12 kg'],
    ['lift', 'goblet squat 3 x 8 (12 kg)', 'goblet squat 3 x 8 @ 12 kg'],
    ['lift', 'row 3 x 10 (rpe 8)', 'row 3 x 10 @ rpe 8'],
  ])('is a clause in a part %s: %s is offered as %s', (part, line, written) => {
    expect(offered(part, line)).toBe(written)
  })

  it.each([
    ['run', '8 km easy (trail)', '8 km easy, "trail"'],
    ['lift', 'hip thrust 3 x 10 (pause at top)', 'hip thrust 3 x 10, "pause at top"'],
    ['lift', 'squat 3 x 5 @ 100 kg (belt)', 'squat 3 x 5 @ 100 kg, "belt"'],
  ])('is a note if it is no clause, in a part %s: %s is offered as %s', (part, line, written) => {
    expect(offered(part, line)).toBe(written)
  })

  it('is answered once, however many brackets there are', () => {
    expect(problemsOf('run', `6 x 800 m${' (a, b)'.repeat(34)}`)).toHaveLength(1)
  })
})

describe('a bare time or distance after the work', () => {
  it.each([
    ['run', '6 x 800 m @ 4:20, 2 min', '6 x 800 m @ 4:20/km, rest 2:00'],
    ['run', '6 x 3 min hard (2 min)', '6 x 3:00 hard, rest 2:00'],
    ['run', '6 x 400 m in 80 s (90")', '6 x 400 m in 1:20, rest 1:30'],
    ['run', '6 x 1 km @ 3:50, 400 m', '6 x 1 km @ 3:50/km, jog 400 m'],
    ['run', '6 x 1 km @ 3:50 (400 m)', '6 x 1 km @ 3:50/km, jog 400 m'],
    ['lift', 'squat 5 x 3 @ 100 kg, 2 min', 'squat 5 x 3 @ 100 kg, rest 2:00'],
    ['lift', 'squat 5 x 3 @ 100 kg - 2 min', 'squat 5 x 3 @ 100 kg, rest 2:00'],
    ['lift', "squat 5 x 3 (2')", 'squat 5 x 3, rest 2:00'],
    ['lift', 'plank 3 x 45 s (30 s)', 'plank 3 x 45 s, rest 30 s'],
  ])('is the recovery in a part %s: %s is offered as %s', (part, line, written) => {
    expect(offered(part, line)).toBe(written)
  })

  it('is asked about after a distance without a target, because it can be that', () => {
    expect(problemsOf('run', '6 x 400 m, 90 s').map(({ message }) => message)).toEqual([
      '90 s can be the time of each repeat or the rest after it: write 6 x 400 m in 90 s, or 6 x 400 m, rest 90 s',
    ])
  })
})

it.each([
  ['12 x 1 min on 1 min off', '12 x (1:00 hard, jog 1:00)'],
  ['6 x 3 min on, 2 min off', '6 x (3:00 hard, jog 2:00)'],
  ['10 x 30 s on / 30 s off', '10 x (30 s hard, jog 30 s)'],
  ['10 x (30 s on, 30 s off)', '10 x (30 s hard, jog 30 s)'],
  ["10 x 1' on 1' off", '10 x (1:00 hard, jog 1:00)'],
  ['10 x 30" on 30" off', '10 x (30 s hard, jog 30 s)'],
  ['10 x 1 on, 1 off', '10 x (1:00 hard, jog 1:00)'],
  ['5 x 3 m on with 2 m off', '5 x (3:00 hard, jog 2:00)'],
  ['1 min on 1 min off x 12', '12 x (1:00 hard, jog 1:00)'],
  ['6 x 3:00 on, 2:00 off', '6 x (3:00 hard, jog 2:00)'],
  ['6 x 3/2', '6 x (3:00 hard, jog 2:00)'],
  ['8 x 40/20 s', '8 x (40 s hard, jog 20 s)'],
  ['10 x 200/200', '10 x (200 m hard, jog 200 m)'],
  ['8 x 400 on 3:00', '8 x 400 m, every 3:00'],
])('keeps the recovery of work on and off: %s is offered as %s', (line, written) => {
  expect(offered('run', line)).toBe(written)
})

describe('a machine among the figures', () => {
  it.each([
    ['2000 m row @ 1:48-1:52', '2000 m @ 1:48-1:52/500 m, "row"'],
    ['row 5 x 500 m, rest 2 min', '5 x 500 m, rest 2:00, "row"'],
    ['20 km bike @ 30 km/h', '20 km @ 30 km/h, "bike"'],
    ['bike: 45 min easy', '45:00 easy, "bike"'],
    ['bike 20 min', '20:00, "bike"'],
  ])('becomes a note in a cross part: %s is offered as %s', (line, written) => {
    expect(offered('cross', line)).toBe(written)
  })

  it('is not running, so the line belongs to another part', () => {
    expect(problemsOf('run', '20 min bike easy').map(({ message }) => message)).toEqual([
      'this is not running: write cross: bike on a line above it',
    ])
  })

  it('is a note after a comma', () => {
    expect(offered('run', '6 km easy, ski poles')).toBe('6 km easy, "ski poles"')
  })
})

it('asks about a bare pace in a cross part that only a bike holds for a kilometre, unless it is a ride', () => {
  expect(offered('cross', '2000 m @ 1:48-1:52')).toBe('2000 m @ 1:48-1:52/500 m')
  expect(problemsOf('cross: bike', '20 km @ 1:48')).toEqual([])
  expect(problemsOf('cross: bike erg', '20 km @ 1:48')).toEqual([])
  expect(problemsOf('cross', '20 km @ 1:48/km')).toEqual([])
})

it.each([
  ['lift', 'RDL 3x8 @ 80kg slow lowering', 'RDL 3 x 8 @ 80 kg, "slow lowering"'],
  ['lift', 'farmer walk 4 x 30m 2 x 24kg', 'farmer walk 4 x 30 m @ 2x24 kg'],
  ['lift', 'squat 3 x 5 @ 100 kg (last set AMRAP)', 'squat 5/5/max @ 100 kg'],
  ['lift', 'pull-up 3 x 5, last one max', 'pull-up 5/5/max'],
  ['lift', 'calf raise 3 x 15 ea side, 60 s', 'calf raise 3 x 15 each side, rest 1:00'],
  ['fuel', '2 h before: 80 g carbs', 'before 2 h: carbs 80 g'],
  ['fuel', '1 h before run: porridge', 'before 1 h: "porridge"'],
])('loses nothing in a part %s: %s is offered as %s', (part, line, written) => {
  expect(offered(part, line)).toBe(written)
})

it('reads a height after a comma', () => {
  const reading = readPrescription('Tuesday\n\nlift\n  box jump 5 x 3, 60 cm, rest 1:00\n')
  if ('problems' in reading) throw new Error(reading.problems[0]?.message)
  expect(printPrescription(reading.prescription)).toContain('  box jump 5 x 3 at 60 cm, rest 1:00\n')
})

describe('a line with more than one habit of its own', () => {
  it.each([
    ['run', '6 x 400 @ 75 s, 60 s', '6 x 400 m in 1:15, rest 1:00'],
    ['run', '5 x 400 m (78, 77, 76, 75, 74), 90 s jog', '5 x 400 m in 78/77/76/75/74 s, jog 1:30'],
    ['run', '30-30s x 12', '12 x (30 s hard, jog 30 s)'],
    ['run', '8 x 40-20', '8 x (40 s hard, jog 20 s)'],
    ['run', '1600-1200-800-400 @ 5k pace, 2 min jog', '1600-1200-800-400 m hard, jog 2:00, "at 5k pace"'],
    ['run', '10 km @ MP', '10 km hard, "at MP"'],
    ['run', '1000-800-600-400-200 off 90 s', '1000-800-600-400-200 m, rest 1:30'],
    ['run', 'mile repeats x 4', '4 x 1 mi'],
    ['run', '8 x 100 m hill sprints, walking back', '8 x 100 m, walk back, "hill sprints"'],
    ['run', '5 km at race pace', '5 km hard, "at race pace"'],
    ['lift', 'squat @ 100x5', 'squat 1 x 5 @ 100 kg'],
    ['run', '5 x 1 km @ 10 km pace, jog 400 m', '5 x 1 km hard, jog 400 m, "at 10 km pace"'],
    [
      'fuel',
      'before 2 h: porridge 80 g carbs, 15 g protein',
      'before 2 h: carbs 80 g, protein 15 g, "porridge"',
    ],
    ['run', '6 x 3 min @ 10k effort off 90 s jog', '6 x 3:00 hard, jog 1:30, "at 10k effort"'],
    ['run', '3 x 10 min at half marathon pace (4:05), 2 min', '3 x 10:00 @ 4:05/km, rest 2:00'],
    ['run', '15 km progressive 5:00 -> 4:15', '15 km @ 5:00 to 4:15/km, split 1 km'],
    ['run', 'Fartlek 40 min: 10 x 1 min fast', '40:00 steady, "fartlek: 10 x 1 min fast"'],
    ['run', '6 x 800 @ 5k pace (3:50/km), 400 jog', '6 x 800 m @ 3:50/km, jog 400 m'],
    ['run', '20 x 100 @ 18, 100 jog', '20 x 100 m in 18 s, jog 100 m'],
    ['run', '12 x 400 @ 78-80, 45 s', '12 x 400 m in 78-80 s, rest 45 s'],
    ['run', "2 x 20' @ 85% HRmax, 5' jog", '2 x 20:00, jog 5:00, "85% HRmax"'],
    ['run', '2 x 15 min @ 85-90% hr max', '2 x 15:00, "85-90% hr max"'],
    ['run', '6 x 1 km @ 95-100% vo2max, jog 2 min', '6 x 1 km, jog 2:00, "95-100% vo2max"'],
    ['run', '5-4-3-2-1 min @ 10k pace w/ 90s', '5-4-3-2-1 min hard, rest 1:30, "at 10k pace"'],
    [
      'run',
      '3 sets: 4 x 200 m in 33 s, 30 s rest; 4 min between sets',
      '3 x (4 x 200 m in 33 s, rest 30 s), rest 4:00',
    ],
    ['run', 'threshold 3 x 8 min, 2 min jog', '3 x 8:00 threshold, jog 2:00'],
    ['run', '30 min @ 150 W', '30:00, "150 W"'],
    ['lift', 'squat 5x70% 5x75% 3x80%', 'squat 5/5/3 @ 70/75/80%'],
    ['lift', 'back squat 70% x 5, 75% x 5, 80% x 3', 'back squat 5/5/3 @ 70/75/80%'],
    ['lift', 'squat top set 1x3 @ 120, backoff 3x5 @ 100', 'squat: 1 x 3 @ 120 kg then 3 x 5 @ 100 kg'],
    ['lift', 'clusters: bench 4 x 2+2+2 @ 80, 15s', 'bench 4 x (2+2+2) @ 80 kg, pause 15 s'],
    ['lift', 'step up 3x8 each @ 2x14kg 90s', 'step up 3 x 8 each side @ 2x14 kg, rest 1:30'],
    ['lift', 'hamstring curl 3 x 12, rpe 8, 60 s', 'hamstring curl 3 x 12 @ rpe 8, rest 1:00'],
    ['lift', 'pause squat 3x3 @ 90kg (3s pause)', 'pause squat 3 x 3 @ 90 kg, "3s pause"'],
    [
      'lift',
      'deadlift cluster 5 x (1+1+1) @ 150 kg, 20 s between, 3 min rest',
      'deadlift cluster 5 x (1+1+1) @ 150 kg, pause 20 s, rest 3:00',
    ],
    ['lift', 'squat 6 @ 100, 4 @ 110, 2 @ 120', 'squat 6/4/2 @ 100/110/120 kg'],
    ['lift', 'front squat 5x3, last set 3+', 'front squat 3/3/3/3/3+'],
    ['lift', 'power clean 6x2 @ 75kg EMOM', 'power clean 6 x 2 @ 75 kg, every 1:00'],
    ['lift', 'press 5x5 add 2.5', 'press 5 x 5 @ last + 2.5 kg'],
    ['run', 'hills 10 x 400 m fast 90s rest', '10 x 400 m fast, rest 1:30, "hills"'],
    ['run', '400 m in 80 x 12 off 2 min, hr under 170', '12 x 400 m in 1:20, rest 2:00, hr under 170'],
    ['lift', 'squat 65kg x 3 then 75kg x 5', 'squat 3/5 @ 65/75 kg'],
    [
      'lift',
      'squat 6x10 each leg 80% (rest 2 min) + row 3x10',
      'squat 6 x 10 each leg @ 80% + row 3 x 10, rest 2:00',
    ],
    ['lift', 'curl, 5 x5/leg 80%, back-off 2x8 @ 80', 'curl: 5 x 5 each leg @ 80% then 2 x 8 @ 80 kg'],
    ['lift', 'squat 4 x 3 @ 80% w/ 2 min rest, 1xAMRAP', 'squat: 4 x 3 @ 80% then 1 x max, rest 2:00'],
    ['lift', '3 rounds: push-up 10, then run 200 m, 2 min rest', 'push-up 3 x 10 + run 3 x 200 m, rest 2:00'],
    ['lift', 'squat 5RM', 'squat 1 x 5 @ rpe 8'],
    ['lift', 'squat 1x5 100kg + 2x5 90kg', 'squat: 1 x 5 @ 100 kg then 2 x 5 @ 90 kg'],
    ['lift', 'pull ups 4×6 (+10 kg)', 'pull ups 4 x 6 @ bodyweight+10 kg'],
    ['lift', 'Finisher: plank 3 × 1 min', 'plank 3 x 1:00, "Finisher"'],
    ['lift', '3 rounds: swing x 15, plank 30s', 'swing 3 x 15 + plank 3 x 30 s'],
    ['lift', 'squat 225 lbs x 5 x 3', 'squat 3 x 5 @ 225 lb'],
    ['lift', 'squat 3 x 5 +2.5 kg from last week', 'squat 3 x 5 @ last + 2.5 kg'],
    ['run', '4-6 x 200m strides', '4 x 200 m strides'],
    ['run', '5x(1min fast/1min slow)', '5 x (1:00 fast, 1:00 easy)'],
    ['run', '8 x 400 m + 4 x 200 m', '8 x 400 m\n  4 x 200 m'],
    ['run', 'Warm up: 10 min easy', '10:00 easy, "Warm up"'],
  ])('is offered whole, in a part %s: %s as %s', (part, line, written) => {
    expect(offered(part, line)).toBe(written)
  })

  it.each([
    ['run', '2x(6x300m @ 54s/100m jog) 5min'],
    ['run', '60 min with 4 x 5 min hard, 2 min jog'],
    ['run', '6 x 400 @ 90, 90'],
    ['run', '200-400-600-400-200 m, jog half'],
    ['run', '3 x (800-600-400) off 90 s, 3 min between sets'],
    ['lift', 'hang clean 5x2 @ 60% bodyweight'],
    ['lift', 'squat 3 x 5 @ 100 kg, pause 3 s'],
  ])('is refused without a line if none is sure, in a part %s: %s', (part, line) => {
    expect(problemsOf(part, line)).not.toEqual([])
    expect(offered(part, line)).toBeNull()
  })

  it.each([
    ['run', 'long run: 18 km', '18 km'],
    ['run', 'easy run 8k', '8 km easy'],
    ['run', 'cool-down jog 10 minutes', '10:00 cool-down'],
    ['run', '5k TT', '5 km trial'],
    ['run', '5 km easy run', '5 km easy'],
    ['run', '3 min 30 hard', '3:30 hard'],
    ['run', '1 h 30 min easy', '1:30:00 easy'],
    ['run', '6 x 3:00 min hard', '6 x 3:00 hard'],
    ['run', '6 x 400 m, jogging 200 m', '6 x 400 m, jog 200 m'],
    ['run', '5 x 1000 m in 3:30 w/ 90 s standing rest', '5 x 1000 m in 3:30, stand 1:30'],
    ['lift', 'curl drop set 12/10/8 @ 20/15/10 kg', 'curl 1 x (12 > 10 > 8) @ 20/15/10 kg'],
    ['fuel', 'before 1 h: caffeine 200 mg, carbs 30 g', 'before 1 h: carbs 30 g, "caffeine 200 mg"'],
    ['lift', 'Superset: bench 3x8 @ 60, row 3x8 @ 50', 'bench 3 x 8 @ 60 kg + row 3 x 8 @ 50 kg'],
    ['lift', 'squat 1x3 @ 120 then 3x5 -15%', 'squat: 1 x 3 @ 120 kg then 3 x 5 @ 102.5 kg'],
    ['lift', 'squat 3x5 @ 100kg 2-3 RIR', 'squat 3 x 5 @ 100 kg rpe 7-8'],
    ['lift', 'split squat 3x8e @ 2x16 kg', 'split squat 3 x 8 each side @ 2x16 kg'],
    ['lift', 'box jumps 5x3 60cm', 'box jumps 5 x 3 at 60 cm'],
  ])('is read if it can mean one thing only, in a part %s: %s as %s', (part, line, written) => {
    const reading = readPrescription(`Tuesday\n\n${part}\n  ${line}\n`)
    expect(
      'prescription' in reading ? printPrescription(reading.prescription).split('\n')[4]?.trim() : '',
    ).toBe(written)
  })

  it.each(['4 x 3-4 min hard', '5 x 8-10 min easy'])('keeps a range in %s', (line) => {
    expect(problemsOf('run', line)).toEqual([])
  })
})

describe('a session on one line', () => {
  it.each([
    ['warm up 2 km, 5 x 1 km @ 3:40, cool down 2 km', '2 km warm-up\n  5 x 1 km @ 3:40/km\n  2 km cool-down'],
    [
      '2 mi wu, 4 x mile @ 6:00/mi, 3 min jog, 2 mi cd',
      '2 mi warm-up\n  4 x 1 mi @ 6:00/mi, jog 3:00\n  2 mi cool-down',
    ],
    [
      '2000 m @ 3:50, 3 min, 3 x 800 m @ 2:48, 2 min',
      '2000 m @ 3:50/km\n  rest 3:00\n  3 x 800 m @ 2:48/km, rest 2:00',
    ],
    ['12 km long run @ 5:10/km, last 3 km @ 4:30/km', '9 km @ 5:10/km\n  3 km @ 4:30/km'],
    ['45 min easy, last 10 min steady', '35:00 easy\n  10:00 steady'],
    ['16 km with 5 km @ 4:00/km', '11 km easy\n  5 km @ 4:00/km'],
  ])('is offered with a line for each interval: %s', (line, written) => {
    expect(problemsOf('run', line).map(({ suggestion }) => suggestion)).toEqual([written])
    const lines = readPrescription(`Tuesday\n\nrun\n  ${written}\n`)
    expect('problems' in lines ? lines.problems : []).toEqual([])
  })

  it('is not cut in a way that leaves a recovery at its end', () => {
    expect(problemsOf('run', '2 km easy, jog 400 m').map(({ suggestion }) => suggestion)).toEqual([null])
  })
})

describe('a line that only looks like one of these habits', () => {
  const readAs = (part: string, line: string) => {
    const reading = readPrescription(`Tuesday\n\n${part}\n  ${line}\n`)
    return 'prescription' in reading ? printPrescription(reading.prescription).split('\n')[4]?.trim() : null
  }

  it.each([
    ['lift', 'squat 3x5 @ 150 - 2 RIR'],
    ['run', 'long run 18-20 km'],
    ['run', 'recovery jog 400 m'],
    ['run', '20 min 10 strides'],
  ])('is not read as something else, in a part %s: %s', (part, line) => {
    expect(readAs(part, line)).toBeNull()
  })

  it.each([
    ['lift', 'farmer carry 4 x 1 min 24 kg', 'farmer carry 4 x 1:00 @ 24 kg'],
    ['run', '5 km @ 4:15/km to 3:55/km, split 1 km', '5 km @ 4:15 to 3:55/km, split 1 km'],
    ['run', '5 km at 4 min/km', '5 km @ 4:00/km'],
    ['run', '5 km, 1 km splits', '5 km, split 1 km'],
    ['run', '2 km @ 110%', '2 km, "@ 110%"'],
    ['run', '6 x 1 km @ 3:40 ± 3 s', '6 x 1 km @ 3:40/km, "± 3 s"'],
    ['run', 'elliptical 30 min', '30:00, "elliptical"'],
    ['run', 'pool running 30 min', '30:00, "pool running"'],
    ['lift', 'bench 3x5 @ 80 kg + chains, rest 2:00', 'bench 3 x 5 @ 80 kg, rest 2:00, "+ chains"'],
    ['lift', 'leg press 3 x 12 @ level 8', 'leg press 3 x 12, "@ level 8"'],
    ['lift', 'bench 80kg 3x5', 'bench 3 x 5 @ 80 kg'],
    ['lift', 'squat: work up to 140 x 1', 'squat 1 x 1 @ 140 kg'],
    ['lift', 'squat 1x1 @ 140, back-off 3x3 -10%', 'squat: 1 x 1 @ 140 kg then 3 x 3 @ 125 kg'],
    ['lift', 'squat 5 x 5 @ 140 kg, rest 2-3', 'squat 5 x 5 @ 140 kg, rest 2:00-3:00'],
    ['run', '6 x 1 min 30 s jog', '6 x 1:00, jog 30 s'],
    ['lift', 'deadlift 5 x (1+1+1) @ 150 kg, 3 min between', 'deadlift 5 x (1+1+1) @ 150 kg, rest 3:00'],
    ['run', '10 min warm up, 20 min, 10 min cool down', '10:00 warm-up\n  20:00\n  10:00 cool-down'],
  ])('keeps its meaning, in a part %s: %s is offered as %s', (part, line, written) => {
    expect(offered(part, line)).toBe(written)
  })

  it.each([
    ['lift', 'squat 5 @ 100 kg, 3 @ 245 lb'],
    ['run', '1:15 h easy'],
    ['lift', 'squat 3 x 5 @ 100 kg to 110 kg'],
    ['lift', 'squat 3 x 5, rest'],
    ['lift', 'calf raise 3 x 20 straight into 3 x 10'],
    ['lift', 'squat 5 @ 8, 5 @ 8.5, 5 @ 9'],
    ['lift', 'press 5x60, 6x70, 90s rest'],
    ['lift', 'EMOM 10: kb swing 15, 8 row @ 40 kg, 2 min rest between rounds'],
    ['run', '3 x (400 m, jog 200 m'],
    ['run', '20 km with 8 km @ 4:00/km, 4 km @ 3:50/km'],
    ['lift', 'row 10x8-10/leg, rest 90 x2'],
    ['lift', 'squat 3 x 5, back off 2 x 8'],
    ['lift', 'carry: 8 x 8 80% 3 min rest / row 3 x 10'],
    ['run', '5 x (3 min hard, jog 90 s), 90 s'],
    ['fuel', '30g carbs 1:30 between lift'],
  ])('is offered no line, in a part %s: %s', (part, line) => {
    expect(offered(part, line)).toBeNull()
  })

  it('does not make an exercise of the next sets of a superset', () => {
    expect(readAs('lift', 'superset: squat 3x5 @ 100 kg, then 2x5 @ 90')).toBe(
      'squat: 3 x 5 @ 100 kg then 2 x 5 @ 90 kg',
    )
    expect(readAs('lift', 'AMRAP 12 min 10 burpees, 15 kb swing 24 kg')).toContain('24 kg')
  })
})
