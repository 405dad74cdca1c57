import { describe, expect, it } from 'vitest'
import { readPrescription } from '../../src/prescription/read.ts'

/* What coaches really write and the notation does not read, and the answer to each. The carets' column and length
 * are in front of each answer. */

/** The answers to a line of a part, with their places; running is put between two easy kilometres, because
 * only work may begin or end a part. */
function answersTo(part: string, line: string): string[] {
  const around = part.startsWith('run') ? ['1 km', line, '1 km'] : [line]
  const head = ['Day', 'goal: 10 km in 39:30', 'max: squat 100 kg', part]
  const reading = readPrescription([...head, ...around].join('\n'))
  const problems = 'problems' in reading ? reading.problems : reading.warnings
  return problems
    .filter((problem) => problem.line === head.length + around.indexOf(line) + 1)
    .map(
      ({ column, length, severity, message }) =>
        `${column}+${length} ${severity === 'warning' ? 'warning: ' : ''}${message}`,
    )
}

describe('a line in a part that begins with lift is answered', () => {
  const rows: [line: string, ...answers: string[]][] = [
    ['5x5 squat', '1+9 the name of the exercise comes first; write: squat 5 x 5'],
    [
      'squat 3 x 5 @ 100 kg, rset 2:00, tempo 3-1-1',
      '23+4 "rset" is not understood here; did you mean rest? Write: squat 3 x 5 @ 100 kg, rest 2:00, tempo 3-1-1',
    ],
    [
      'squat w/u to 100, then 3x3 @ 110',
      '17+1 "," cannot be read here; expected: sets (3 x 8, or 10/8/6); a whole line: squat 3 x 8 @ 60 kg, rest 2:00',
    ],
    [
      "back squat 5x5 80kg 3' rest",
      '1+27 a time is written with s, min or h, or as a clock: write 3 min; write: back squat 5 x 5 @ 80 kg, rest 3:00',
      '16+4 put @ before the load',
    ],
    [
      'squat 3 x 5 @ 100 kg, belt',
      '23+4 "belt" is not understood here; put words of your own in quotes; write: squat 3 x 5 @ 100 kg, "belt"',
    ],
    ['3 sets of 8', '1+11 the name of the exercise is missing: write it before 3 x 8, such as squat 3 x 8'],
    ...(
      [
        ['3x5x140kg', 'the name of the exercise is missing: write it first, such as squat 3 x 5 @ 140 kg'],
        ['140kg x 5', 'the name of the exercise is missing: write it first, such as squat 1 x 5 @ 140 kg'],
        ['5,5,3', 'the name of the exercise is missing: write it first, such as squat 5/5/3'],
        [
          '@ 315 lb RPE8',
          'the exercise and its sets are missing: write them first, such as squat 3 x 5 @ 315 lb rpe 8',
        ],
        ['@ 2 RIR', 'the exercise and its sets are missing: write them first, such as squat 3 x 5 rpe 8'],
        [
          'every minute',
          'the exercise, its sets and its repetitions are missing: write them first, such as clean 10 x 1, every 1:00',
        ],
        [
          'squat 3x140kg',
          '3 can be sets or repetitions: write squat 3 x 5 @ 140 kg, or squat 1 x 3 @ 140 kg',
        ],
      ] as const
    ).map(([line, answer]): [string, string] => [line, `1+${line.length} ${answer}`]),
    ['squat 5x5 100kg', '11+5 put @ before the load; write: squat 5 x 5 @ 100 kg'],
    ['squat 5x5 100', '11+3 put @ before the load; write: squat 5 x 5 @ 100 kg'],
    [
      'squat 100 kg 5 x 5',
      '1+12 warning: this is read as a name with 100 kg in it; put the load after the sets: 3 x 8 @ 100 kg',
    ],
    ['deadlift 5 @ 140', '1+16 the number of sets is missing; write: deadlift 1 x 5 @ 140 kg'],
    [
      'bench 2 back-off sets 8 @ 60%',
      '25+1 "@" cannot be read here; expected: sets (3 x 8, or 10/8/6); a whole line: squat 3 x 8 @ 60 kg, rest 2:00',
    ],
    ['rest 90', '1+7 a rest is written after the sets that it belongs to, such as squat 3 x 8, rest 90 s'],
    [
      'plank 45"',
      '1+9 the number of sets is missing; write: plank 1 x 45 s',
      '7+3 a time is written with s, min or h, or as a clock: write 45 s',
    ],
    [
      'plank 3 x 45", rest 30"',
      '11+3 a time is written with s, min or h, or as a clock: write 45 s; write: plank 3 x 45 s, rest 30 s',
      '21+3 a time is written with s, min or h, or as a clock: write 30 s',
    ],
    [
      'work up to a heavy single',
      '1+25 working up to a heavy set is written by effort: the exercise and 1 x 1 @ rpe 8',
    ],
    [
      'front squat: work up to a heavy triple, rest 3:00',
      '1+49 working up to a heavy set is written by effort: front squat 1 x 3 @ rpe 8',
    ],
    [
      'power clean + hang clean + jerk 5 x 1 @ 60 kg',
      '1+45 the lifts of a complex are written in brackets, each with its repetitions; write: 5 x (power clean 1 + hang clean 1 + jerk 1) @ 60 kg',
    ],
    [
      'curl 3 x 10, drop set',
      '1+21 a drop set says its drops in brackets, and their loads after one @; write: curl 2 x 10 then 1 x (10 > 8)',
    ],
    [
      'curl 10 @ 20 kg -> 8 @ 15 kg',
      '1+28 a drop set says its drops in brackets, and their loads after one @; write: curl 1 x (10 > 8) @ 20/15 kg',
    ],
    ['AMRAP 10 min: 5 pull-ups, 10 push-ups'],
    ['12 min AMRAP of 5 pull-ups'],
    ['squat 5 x 5 @ 8', '15+1 8 can be a load or an effort: 8 kg or rpe 8? Write: squat 5 x 5 @ rpe 8'],
    [
      'squat 5 x 5 @ 7-8',
      '15+3 7-8 can be a load or an effort: 7-8 kg or rpe 7-8? Write: squat 5 x 5 @ rpe 7-8',
    ],
    [
      'squat 5 x 5 @ 100 kg, rest 90',
      '28+2 90 needs a unit: write 90 s; write: squat 5 x 5 @ 100 kg, rest 1:30',
    ],
    [
      'squat 5 x 5 @ 100 kg, rest 2 m',
      '28+3 m is metres: write 2 min; write: squat 5 x 5 @ 100 kg, rest 2:00',
    ],
    ['squat 5 x 5 @ 135#', '15+4 a mass in pounds is written with lb: write lb; write: squat 5 x 5 @ 135 lb'],
    ['squat 5 x 5 @ 3x24 kg', '15+7 only a pair of loads can be written: 2x and the mass of one'],
    ['squat 5 x 5 @ 0 kg', '15+4 a mass cannot be 0'],
    [
      'squat 5 x 5 @ 60,5 kg',
      '15+4 a number has a point, not a comma: write 60.5; write: squat 5 x 5 @ 60.5 kg',
    ],
    [
      'squat 5 x 5, pause 20 s',
      '14+10 a pause is between the groups of a cluster set, such as 5 x (3+2), or between the exercises of a superset; write rest for after a set, tempo for a pause in a repetition; write: squat 5 x 5, rest 20 s',
    ],
    [
      'squat 5x5 20s pause',
      '1+19 a pause is between the groups of a cluster set, such as 5 x (3+2), or between the exercises of a superset; write rest for after a set, tempo for a pause in a repetition; write: squat 5 x 5, rest 20 s',
    ],
    [
      'squat 3 x 1, pause 20 s, rest 2:00',
      '14+10 a pause is between the groups of a cluster set, such as 4 x (2+2), or between the exercises of a superset; write rest for after a set, tempo for a pause in a repetition',
    ],
    ['squat 5 x 5, rest 2:00, rest 3:00', '25+9 rest is given twice: remove one'],
    [
      'squat 5 x 5, every 2:00, rest 1:00',
      '14+10 with every, sets begin by the clock and have no other rest: remove one of the two',
    ],
    [
      'squat 5 x 5 @ bodyweight, build from 40 kg',
      '27+16 build from needs a load in kg or lb to build up to, such as @ 90 kg',
    ],
    [
      'bench 5 x 5 @ 80%, build from 40 kg',
      '20+16 build from needs a load that is known: write the maximum above, such as max: bench 100 kg',
    ],
    ['squat 5 x 5 @ 80%, build from 80 kg', '20+16 build from 80 kg must be less than the first load, 80 kg'],
    [
      'squat 5 x 5 @ 80 kg, build from 100 kg',
      '22+17 build from 100 kg must be less than the first load, 80 kg',
    ],
    ['squat 5 x 5 @ rpe 11', '15+6 RPE runs from 1 to 10'],
    ['squat 5 x 5 @ 100 kg @8', '13+11 an effort is written rpe 8; write: squat 5 x 5 @ 100 kg rpe 8'],
    ['squat 5 x 5, rpe 8', '14+5 put the effort after its load, without a comma; write: squat 5 x 5 @ rpe 8'],
    ['squat 5 x 5 @ 100 kg, slowly', '23+6 warning: note: slowly'],
    ['squat 5 x 5; rest 2:00', '12+1 put a comma before a clause; write: squat 5 x 5, rest 2:00'],
    ['squat 5 x 5, tempo slow', '20+4 a tempo is written 3-1-1, 3-1-1-0 or 31X1'],
    ['squat 5 x 5, tempo 311', '20+3 a tempo is written 3-1-1; write: squat 5 x 5, tempo 3-1-1'],
    [
      'squat 3 x 5+ bench 3 x 5',
      '1+11 5+ means five or more: a space before the + makes a superset; write: squat 3 x 5 + bench 3 x 5',
    ],
    ['squat 4 x 2+2', '1+13 a cluster set is written in brackets; write: squat 4 x (2+2)'],
    ['squat 0 x 5', '7+1 a count runs from 1 to 999, so 0 cannot be read'],
    ['squat 1000 x 5', '7+4 a count runs from 1 to 999, so 1000 cannot be read'],
    ['squat 5 x 0', '11+1 a number of repetitions runs from 1 to 999, so 0 cannot be read'],
    ['squat 5 x 5 @ 60/70 kg', '13+10 2 loads for 5 sets: write one load, or one for each set'],
    [
      'curl 12 > 10 @ 20 kg',
      '1+20 a drop set says its drops in brackets and a load for each: write curl 1 x (12 > 10) @ and the loads, with slashes between them',
    ],
    ['squat 3 x 10/8/6', '1+16 slashes give one set each: remove the count; write: squat 10/8/6'],
    ['squat 8,8,6', '7+5 sets that differ have slashes between them; write: squat 8/8/6'],
    [
      'bench 10-8-6 @ 60-65-70 kg',
      '7+6 sets that differ have slashes between them; write: bench 10/8/6 @ 60/65/70 kg',
      '14+13 loads that differ have slashes between them',
    ],
    [
      'bench 3 x 5 @ 60-65-70%, rest 2:00',
      '13+11 loads that differ have slashes between them; write: bench 3 x 5 @ 60/65/70%, rest 2:00',
    ],
    [
      'EMOM',
      '1+4 every minute on the minute is written with every, such as clean 10 x 2 @ 60 kg, every 1:00',
    ],
    [
      'clean 2 x 10 emom 10 min',
      '1+24 every minute on the minute is written with every, such as clean 10 x 2 @ 60 kg, every 1:00',
    ],
    [
      'db press 3 x 8 @ 2x22.5 kg, rest 60',
      '34+2 60 needs a unit: write 60 s; write: db press 3 x 8 @ 2x22.5 kg, rest 1:00',
    ],
    ['clean 10 x 2, E2MOM', '15+5 every 2 minutes is written every 2:00; write: clean 10 x 2, every 2:00'],
    [
      'EMOM clean 10 x 2',
      '1+10 warning: this is read as a name, EMOM clean: put a comma before every, such as clean 10 x 2, every 1:00',
    ],
    [`${'a long name '.repeat(10)}3 x 5`, '1+125 a name has at most 80 characters, this one has 119'],
    [`${'a long name '.repeat(7)}3 x 5`, '1+83 a name has at most 80 characters, this one has 83'],
    ['squat 12-10-8', '7+7 sets that differ have slashes between them; write: squat 12/10/8'],
    [
      'squat 1 x 20, 3 x 5',
      '1+19 sets that differ are written one after the other with then; write: squat 1 x 20 then 3 x 5',
    ],
    [
      'squat',
      '6+1 the line ends too early; expected: sets (3 x 8, or 10/8/6); a whole line: squat 3 x 8 @ 60 kg, rest 2:00',
    ],
    [
      'squat x 5',
      '10+1 the line ends too early; expected: sets (3 x 8, or 10/8/6); a whole line: squat 3 x 8 @ 60 kg, rest 2:00',
    ],
    [
      'squat many @ heavy',
      '12+1 "@" cannot be read here; expected: sets (3 x 8, or 10/8/6); a whole line: squat 3 x 8 @ 60 kg, rest 2:00',
    ],
    [
      'squat 5 x 5 5 x 5',
      '13+5 sets that differ are written with slashes, such as 20/5/5/5, or on a line of their own',
    ],
    [
      'bench 3x5 & row 3x8',
      '11+1 the exercises of a superset have a + between them; write: bench 3 x 5 + row 3 x 8',
    ],
    [
      'hip 90/90 lift 3 x 8',
      '1+20 put a colon after a name that looks like sets; write: hip 90/90 lift: 3 x 8',
    ],
    ['lunge 3 x 10/leg'],
    ['plank 45 s x 3', '7+8 the number of sets comes first; write: plank 3 x 45 s'],
    ['squat @ 100 kg, 3 x 8', '1+21 put the sets before the load; write: squat 3 x 8 @ 100 kg'],
    ['squat @ 100 kg 3 x 8', '1+20 put the sets before the load; write: squat 3 x 8 @ 100 kg'],
    [
      'row @ 2x20 kg for 3 x 10 each arm',
      '1+33 put the sets before the load; write: row 3 x 10 each arm @ 2x20 kg',
    ],
    ['pull-up 3 x failure', '13+7 as many reps as possible is written max; write: pull-up 3 x max'],
    [
      'pull-up 3 x 8 @ -20 kg',
      '17+6 assistance is written bodyweight- and a mass; write: pull-up 3 x 8 @ bodyweight-20 kg',
    ],
    ['400 m easy', '1+10 this reads as an item of a run part: write run on a line above it'],
    ['squat 5 x 5 "slow', '13+1 a text that begins with a quote here has no quote at its end'],
    [
      'squat 5 x 3:75',
      '11+4 a time is written m:ss or h:mm:ss, so 3:75 cannot be read (seconds run from 00 to 59)',
    ],
  ]

  it.each(rows)('with the place and what to write: %s', (line, ...answers) => {
    expect(answersTo('lift', line)).toEqual(answers)
  })
})

describe('a line in a part that begins with run: track is answered', () => {
  const rows: [line: string, ...answers: string[]][] = [
    ['400 m in 80', '10+2 80 needs a unit: write 80 s; write: 400 m in 1:20'],
    [
      '1 km @ 412',
      '6+5 412 can be 4:12 or seconds: write @ 4:12 for a pace, in 4:12 or in 412 s for the whole',
    ],
    [
      '1 km in 405-412',
      '9+7 405-412 can be 4:05-4:12 or seconds: write @ 4:05-4:12 for a pace, in 4:05-4:12 or in 405-412 s for the whole',
    ],
    ['1 km @ 412/km', '8+3 a pace is written m:ss: write 4:12; write: 1 km @ 4:12/km'],
    ['400 m in 80-85', '10+5 80-85 needs a unit: write 80-85 s; write: 400 m in 1:20-1:25'],
    [
      '8x400m @ 80',
      '8+4 a time for the whole interval is written with in: write in 80 s; write: 8 x 400 m in 1:20',
    ],
    ['6 x 500', '5+3 500 needs a unit: write 500 m; write: 6 x 500 m'],
    ['jog 400', '5+3 400 needs a unit: write 400 m; write: jog 400 m'],
    ['5 km, split 1000', '7+10 1000 needs a unit: write 1000 m; write: 5 km, split 1000 m'],
    ['5 km @ 4.00', '8+4 a pace is written m:ss: write 4:00; write: 5 km @ 4:00/km'],
    ['5 km @ 4', '8+1 a pace is written m:ss: write 4:00; write: 5 km @ 4:00/km'],
    [
      "6 x 400 m, jog 200 m in 2'",
      '25+2 a time is written with s, min or h, or as a clock: write 2 min; write: 6 x 400 m, jog 200 m in 2:00',
    ],
    [
      "6 x 400 m, every 4'",
      '18+2 a time is written with s, min or h, or as a clock: write 4 min; write: 6 x 400 m, every 4:00',
    ],
    [
      '6 x 400 m @ 4.00 jog back',
      '13+4 a pace is written m:ss: write 4:00; write: 6 x 400 m @ 4:00/km, jog back',
    ],
    [
      '6 x 400 m @ 4.00 jog same time',
      '13+4 a pace is written m:ss: write 4:00; write: 6 x 400 m @ 4:00/km, jog same time',
    ],
    ['1,5 km easy', '1+3 a number has a point, not a comma: write 1.5; write: 1.5 km easy'],
    ['1,500 m easy', '1+5 a number has no comma: write 1500, or 1.500'],
    ['.5 km easy', '1+2 a number has a digit before its point: write 0.5; write: 0.5 km easy'],
    [
      '6 x 500 m @ 3:75/km, jog 200 m',
      '13+4 a pace is written m:ss, so 3:75 cannot be read (seconds run from 00 to 59)',
    ],
    ['6 x 500 m @ 3:5/km', '13+3 a pace is written m:ss, so 3:5 cannot be read (seconds have two digits)'],
    [
      '5 km in 1:60:00',
      '9+7 a time is written m:ss or h:mm:ss, so 1:60:00 cannot be read (minutes run from 00 to 59)',
    ],
    ['5 km @ 4:05 min/km', '8+11 a pace for each km is written 4:05/km; write: 5 km @ 4:05/km'],
    ['5 km @ 6:15/mile', '8+9 a pace for each mi is written 6:15/mi; write: 5 km @ 6:15/mi'],
    [
      '5 km @ 1:20 per lap',
      '8+12 a pace is for each km, mi or 500 m; a time for the whole interval is written with in, such as 400 m in 1:20',
    ],
    [
      '5 km @ 5k pace',
      '1+14 a pace is written in figures, such as @ 4:05/km, or as @ goal; put words of your own in quotes; write: 5 km hard, "at 5k pace"',
    ],
    ['5 km @ tempo', '8+5 a word needs no @: write tempo; write: 5 km tempo'],
    [
      'easy 5 km @ 5:30',
      '1+16 an interval has one target; put anything else in quotes; write: 5 km @ 5:30/km, "easy"',
    ],
    [
      '2 km easy, jog 400 m',
      '12+9 a recovery after work that is not repeated is an item: write it on a line of its own (jog 400 m)',
    ],
    [
      '2 km easy, walk 2 min',
      '12+10 a recovery after work that is not repeated is an item: write it on a line of its own (walk 2:00)',
    ],
    [
      '3 x (1 km, jog 400 m), walk 3:00',
      '24+9 this group already ends in a recovery: remove that one, or walk 3:00',
    ],
    [
      '10 min, split 1 km',
      '9+10 an interval given by time has no splits: give it a distance, or remove the split',
    ],
    ['10 min in 9:00', '11+4 an interval of 10:00 already has its time: a target in 9:00 needs a distance'],
    ['5 km easy, split 1 km, split 500 m', '24+11 split is given twice: remove one'],
    [
      '400 m in 1:20:00',
      '10+7 400 m in 1:20:00 is slower than a walk: did you mean 1:20? Write: 400 m in 1:20',
    ],
    [
      'half marathon in 1:28',
      '18+4 half marathon in 1:28 (88 s) is faster than any human: did you mean 1:28:00? Write: half marathon in 1:28:00',
    ],
    ['400 m in 8 s', '10+3 400 m in 8 s is faster than any human: did you mean 8:00? Write: 400 m in 8:00'],
    ['5 km @ 0:50/km', '6+9 a pace of 0:50/km is faster than any human (12.5 m/s)'],
    ['5 km @ 40:00/km', '6+10 a pace of 40:00/km is slower than a walk (0.5 m/s)'],
    ['5 km @ 50 km/h', '6+9 50 km/h is faster than any human (12.5 m/s)'],
    ['5 km @ hr 300', '11+3 a heart rate runs from 30 to 250 beats a minute'],
    ['5 km, lane 9', '7+6 lanes run from 1 to 8'],
    ['5 km, grade 5', '7+7 a grade is in percent: write grade 5%; write: 5 km, grade 5%'],
    ['0 km', '1+4 a distance cannot be 0'],
    ['0 x 400 m', '1+1 a count runs from 1 to 999, so 0 cannot be read'],
    ['1000 x 400 m', '1+4 a count runs from 1 to 999, so 1000 cannot be read'],
    ['6 x 400 m w/ 90 s rest', '14+9 rest comes first in a recovery; write: 6 x 400 m, rest 1:30'],
    [
      '6 x 400 m, rest 200 m',
      '12+10 a rest is timed: write walk for a distance; write: 6 x 400 m, walk 200 m',
    ],
    [
      '10 x 1 min hard, 1 min easy',
      '1+27 put brackets around intervals that are repeated together; write: 10 x (1:00 hard, 1:00 easy)',
    ],
    ['3 x (400 m, jog 200 m', '5+1 this bracket is never closed: write ) after the last step'],
    ['3 x 400 m), jog 200 m', '10+1 this bracket closes nothing: open one before the first step'],
    ['(((((400 m)))))', '5+1 brackets can be 4 deep, no more'],
    [
      'fartlek 30 min',
      '1+14 a run by feel is written with its length, and words of your own in quotes; write: 30 min steady, "fartlek"',
    ],
    ['500 m x 6', '1+9 the number of repeats comes first; write: 6 x 500 m'],
    ['200m x 10 @ 35 s', '1+16 the number of repeats comes first; write: 10 x 200 m in 35 s'],
    [
      '1 km x 5 @ 4:00/km, jog 400 m',
      '1+29 the number of repeats comes first; write: 5 x 1 km @ 4:00/km, jog 400 m',
    ],
    ['3:00 x 5 hard, jog 1:00', '1+23 the number of repeats comes first; write: 5 x 3:00 hard, jog 1:00'],
    [
      '6 x 1 km 4:00-4:05/km, jog 400 m',
      '1+32 put @ before the pace; write: 6 x 1 km @ 4:00-4:05/km, jog 400 m',
    ],
    ['10 km easy 5:30/km', '1+18 put @ before the pace; write: 10 km @ 5:30/km, "easy"'],
    [
      '200/400/600/400/200 m, jog 200 m',
      '1+32 the distances of a ladder have hyphens between them; write: 200-400-600-400-200 m, jog 200 m',
    ],
    [
      "6 x 400 in 80 R: 2'",
      '5+3 400 needs a unit: write 400 m; write: 6 x 400 m in 1:20, rest 2:00',
      '12+2 80 needs a unit: write 80 s',
      '15+5 a recovery is written jog, walk, stand or rest, not R',
      '18+2 a time is written with s, min or h, or as a clock: write 2 min',
    ],
    [
      '6 x 400 m r=90s',
      '11+5 a recovery is written jog, walk, stand or rest, not r; write: 6 x 400 m, rest 1:30',
    ],
    ['5 km esay', '6+4 "esay" is not understood here; did you mean easy? Write: 5 km easy'],
    [
      '6 x 500 m, jgo 200 m',
      '12+3 "jgo" is not understood here; did you mean jog? Write: 6 x 500 m, jog 200 m',
    ],
    [
      '6 x 500 m, hop 200 m',
      '12+9 "hop 200 m" is not understood here; put words of your own in quotes; write: 6 x 500 m, "hop 200 m"',
    ],
    ['5 km, foo', '7+3 "foo" is not understood here; put words of your own in quotes; write: 5 km, "foo"'],
    ['squat 5 x 5', '1+11 this reads as an item of a lift part: write lift on a line above it'],
    [
      '5x5 squat',
      '1+9 this reads as an item of a lift part, where the name comes first: write lift on a line above it',
    ],
    [
      '6 by five hundred',
      '3+2 "by" cannot be read here; expected: an x; a whole line: 6 x 500 m @ 4:00/km, jog 200 m',
    ],
    [
      '5 km @ 4:05-',
      '12+1 "-" cannot be read here; expected: a unit such as /km, a comma, a text in quotes or a clause (jog, walk, stand, rest, split, negative, lane, grade, hr, every); a whole line: 6 x 500 m @ 4:00/km, jog 200 m',
    ],
  ]

  it.each(rows)('with the place and what to write: %s', (line, ...answers) => {
    expect(answersTo('run: track', line)).toEqual(answers)
  })
})

describe('a line of another part is answered', () => {
  const rounds =
    'rounds are items of a lift part: write lift on a line above, and the exercises on one line, as in: 3 rounds: 10 push-up, 8 row @ 40 kg'
  it.each([
    [
      'run',
      'gel before run',
      '1+14 this reads as an item of a fuel part: write fuel on a line above it, and then: before: "gel"',
    ],
    [
      'lift',
      'banana after',
      '1+12 this reads as an item of a fuel part: write fuel on a line above it, and then: after: "banana"',
    ],
    ['run', '3 rounds:', `1+9 ${rounds}`],
    [
      'fuel',
      'before 1:30 carbs 60 g',
      '1+6 put a colon after before, between or after; write: before 90 min: carbs 60 g',
    ],
    [
      'cross: row',
      '2000 m @ 1:48-1:52',
      '8+11 this pace can be 1:48-1:52/500 m or 1:48-1:52/km: did you mean 1:48-1:52/500 m? Write: 2000 m @ 1:48-1:52/500 m',
    ],
    [
      'lift',
      'warm up 5 min bike, hips',
      '1+24 this reads as an item of a prep part: write prep on a line above it',
    ],
    [
      'lift',
      '3 rounds:',
      '1+9 the exercises of the rounds are missing: write them on the same line, such as 3 rounds: 10 push-up, 8 row @ 40 kg',
    ],
  ] as const)('in %s: %s', (part, line, answer) => {
    expect(answersTo(part, line)).toEqual([answer])
  })

  it('above the first part, with the meal as it is written', () => {
    const reading = readPrescription('Day\ngel before run\nrun\n  5 km easy\n')
    expect('problems' in reading && reading.problems[0]?.message).toBe(
      'this line needs a heading above it: write fuel on the line above, and then: before: "gel"',
    )
  })
})

describe('a line in a part that begins with fuel is answered', () => {
  const rows: [line: string, ...answers: string[]][] = [
    [
      'before: coffee',
      '9+6 "coffee" is not understood here; put words of your own in quotes; write: before: "coffee"',
    ],
    [
      '75 g carbs',
      '1+10 say when it is eaten: before, between or after, and a colon; write: before: carbs 75 g',
      '1+10 put it as carbs 75 g',
    ],
    [
      'before: carbs 75 g, 200 mg caffeine',
      '21+15 put it as caffeine 200 mg; write: before: carbs 75 g, "caffeine 200 mg"',
    ],
    [
      'before 75 g carbs',
      '1+6 put a colon after before, between or after; write: before: carbs 75 g',
      '8+10 put it as carbs 75 g',
    ],
    [
      'before: carbs 75, 20 g protein',
      '9+8 put it as carbs 75 g; write: before: carbs 75 g, protein 20 g',
      '19+12 put it as protein 20 g',
    ],
    ['during: carbs 30 g', '1+6 use between; write: between: carbs 30 g'],
    ['after: 500 cal', '8+7 energy is written 500 kcal; write: after: 500 kcal'],
    ['after: carbs 20 g, carbs 30 g', '26+2 carbs is given twice: remove one'],
    [
      'gel before run',
      '1+14 a meal begins with before, between or after and a colon, and words of your own are in quotes; write: before: "gel"',
    ],
    [
      'gel 15 min before the race',
      '1+26 a meal begins with before, between or after and a colon, and words of your own are in quotes; write: before 15 min: "gel"',
    ],
    [
      'before run: gel',
      '1+15 a meal begins with before, between or after and a colon, and words of your own are in quotes; write: before: "gel"',
    ],
    [
      'after training 80 g carbs, coffee',
      '1+33 a meal begins with before, between or after and a colon, and words of your own are in quotes; write: after: carbs 80 g, "coffee"',
    ],
    [
      '2 eggs and a banana after',
      '1+25 a meal begins with before, between or after and a colon, and words of your own are in quotes; write: after: "2 eggs", "a banana"',
    ],
    ['breakfast: oats', '1+10 "breakfast:" cannot be read here; expected: before, between or after'],
  ]

  it.each(rows)('with the place and what to write: %s', (line, ...answers) => {
    expect(answersTo('fuel', line)).toEqual(answers)
  })
})

describe('a line in a part that begins with prep is answered', () => {
  const rows: [line: string, ...answers: string[]][] = [
    ['run: 5 min', '1+10 a colon begins a part, and this reads as an item of prep; write: run 5 min'],
    ['foam roll 3:00, slowly', '17+6 warning: note: slowly'],
    [
      "foam roll 3'",
      '11+2 a time is written with s, min or h, or as a clock: write 3 min; write: foam roll 3:00',
    ],
    ['foam roll 0:00', '11+4 a time cannot be 0'],
    ['leg swings 0 x 10', '12+1 a count runs from 1 to 999, so 0 cannot be read'],
    ['400 m jog', '1+9 warning: this is read as a name without an amount; to give one, write jog 400 m'],
    [
      'bands 2 sets',
      '1+12 warning: this is read as a name, bands 2 sets: an amount is written 3 min, 45 s, 20 m, 10 or 2 x 10',
    ],
    [', "x"', '1+1 "," cannot be read here; expected: the end of the line'],
  ]

  it.each(rows)('with the place and what to write: %s', (line, ...answers) => {
    expect(answersTo('prep', line)).toEqual(answers)
  })
})

it('every example in a message can be read', () => {
  const examples = [
    '3x5x140kg',
    '140kg x 5',
    '5,5,3',
    '@ 315 lb RPE8',
    '@ 2 RIR',
    'every minute',
    'squat 3x140kg',
  ]
  for (const line of examples) {
    const [answer = ''] = answersTo('lift', line)
    const written = /(?:such as|write) ((?:squat|clean) \d.*?)(?:, or (.*))?$/.exec(answer)
    for (const each of [written?.[1], written?.[2]])
      if (each !== undefined) expect(answersTo('lift', each)).toEqual([])
    expect(written).not.toBeNull()
  }
})

describe('a file without headings', () => {
  /** The whole file that is offered; null without one. */
  function offered(text: string): string | null {
    const reading = readPrescription(text)
    const [first] = 'problems' in reading ? reading.problems : []
    const whole = first?.suggestion ?? null
    if (whole !== null) expect(readPrescription(whole)).not.toHaveProperty('problems')
    return whole
  }

  it.each([
    ['squat 3x5 140kg', 'Day\n\nlift\n  squat 3 x 5 @ 140 kg\n'],
    ['squat 3x5x140kg\nbench 3x5 60kg', 'Day\n\nlift\n  squat 3 x 5 @ 140 kg\n  bench 3 x 5 @ 60 kg\n'],
    ['EMOM 10: 3 power cleans 70kg', 'Day\n\nlift\n  power cleans 10 x 3 @ 70 kg, every 1:00\n'],
    ['plank 45"', 'Day\n\nlift\n  plank 1 x 45 s\n'],
    ['6 x 500', 'Day\n\nrun\n  6 x 500 m\n'],
    ['6 strides', 'Day\n\nrun\n  6 x 100 m strides, walk back\n'],
    ['5 km race in 20:00', 'Day\ngoal: 5 km in 20:00\n\nrun\n  5 km race\n'],
    ['goal: 10 km in 39:30\n5 km race in 20:00', 'Day\ngoal: 10 km in 39:30\n\nrun\n  5 km race, "20:00"\n'],
    ['date: 2026-11-26\nsquat 3x5 140kg', 'Day\ndate: 2026-11-26\n\nlift\n  squat 3 x 5 @ 140 kg\n'],
    ['Week 3, day 2\nsquat 5x5 100kg', 'Week 3, day 2\n\nlift\n  squat 5 x 5 @ 100 kg\n'],
    [
      'Mixed\ngel before run\nwarm up 5 min bike, hips\n5 km easy\n3 rounds:\n10 push-up\n12 lunge',
      'Mixed\n\nfuel\n  before: "gel"\n\nprep\n  warm up bike 5:00, "hips"\n\nrun\n  5 km easy\n\nlift\n  push-up 3 x 10 + lunge 3 x 12\n',
    ],
    [
      'Mixed\n3 rounds:\n- 10 push-up\n- 400 m run\n5 km easy',
      'Mixed\n\nlift\n  push-up 3 x 10 + run 3 x 400 m\n\nrun\n  5 km easy\n',
    ],
    // A recovery belongs to the runs around it.
    [
      'Miles\n2 mi easy\njog 400\n3 x 1 mi @ 6:00/mi',
      'Miles\n\nrun\n  2 mi easy\n  jog 400 m\n  3 x 1 mi @ 6:00/mi\n',
    ],
  ])('%j is answered with the whole file', (text, whole) => {
    expect(offered(text)).toBe(whole)
  })

  it.each([
    ['where the stations may be a run', 'Mixed\n3 rounds:\n10 push-up\n5 km easy'],
    ['where nothing is below the rounds', 'Mixed\n5 km easy\n3 rounds:'],
    ['for an exercise after another', 'Mixed\npush-ups after run\n5 km easy'],
  ])('has no whole file %s', (_, text) => {
    expect(offered(text)).toBeNull()
  })

  it.each(['Legs', 'Week 3', '3 sets of 8', 'Thursday: five hundreds'])(
    'with only %j is told to add a part',
    (text) => {
      expect(offered(text)).toBeNull()
    },
  )

  it('gets the goal of a race named if the day has a part', () => {
    const reading = readPrescription('Day\n\nrun\n  2 km easy\n  5 km race in 20:00\n  1 km easy\n')
    const [problem] = 'problems' in reading ? reading.problems : []
    expect(problem?.message).toBe(
      'an interval has one target; the time of a race is the goal of the day, so write goal: 5 km in 20:00 below the title; write: 5 km race',
    )
  })
})

describe('a header that cannot be read is answered with one that can', () => {
  it.each([
    [
      'goal 10k sub 39:30 april 18',
      'a header has a colon; a goal is written as a distance in a time, and its date as on 2027-04-18; write: goal: 10 km in 39:30',
    ],
    [
      'goal: 10k sub 39:30 april 18',
      'a goal is written as a distance in a time, and its date as on 2027-04-18; write: goal: 10 km in 39:30',
    ],
    ['goal: sub 40 10k', 'a goal is written as a distance in a time; write: goal: 10 km in 40:00'],
    [
      'race: half marathon under 1:28:00, 2027-04-18',
      'no header is called race; a goal is written as a distance in a time; write: goal: half marathon in 1:28:00 on 2027-04-18',
    ],
    ['goal: 10 km in 39m30s', 'a goal is written as a distance in a time; write: goal: 10 km in 39:30'],
    ['goal: 39\'30" 10k', 'a goal is written as a distance in a time; write: goal: 10 km in 39:30'],
    [
      'goal: hm in 90 min',
      'a goal is written as a distance in a time; write: goal: half marathon in 1:30:00',
    ],
    ['goal: half 1:30', 'a goal is written as a distance in a time; write: goal: half marathon in 1:30:00'],
    ['goal: mile in 5:30', 'a goal is written as a distance in a time; write: goal: 1 mi in 5:30'],
    ['goal: 400 m in 60', 'a goal is written as a distance in a time; write: goal: 400 m in 1:00'],
    ['goal: run 10 km @ 3:57/km', 'a goal is written as a distance in a time; write: goal: 10 km in 39:30'],
    [
      'goal: 10 km in 39:30 on 18 April 2027',
      'a goal is written as a distance in a time, and its date as on 2027-04-18; write: goal: 10 km in 39:30 on 2027-04-18',
    ],
    ['date: Thu Nov 26th, 2026', 'a date is written year-month-day; write: date: 2026-11-26'],
    ['athlete: 150 lb, 34 y', 'the athlete is given as a body mass alone; write: athlete: 150 lb'],
    ['lap: 200', 'the length of a lap needs a unit; write: lap: 200 m'],
    ['race: 10k, hilly', 'no header is called race; write it such as goal: 10 km in 39:30'],
    ['goal 10k sub 3:30', 'a header has a colon; write it such as goal: 10 km in 39:30'],
    ['day: 2026-02-30', 'no header is called day; write it such as date: 2026-11-26'],
    ['day: tomorrow', 'no header is called day; write it such as date: 2026-11-26'],
    ['unit: metric', 'no header is called unit; write it such as units: km kg'],
    ['athlete heavy', 'a header has a colon; write it such as athlete: 70 kg'],
    ['lap long', 'a header has a colon; write it such as lap: 400 m'],
    ['max squat', 'a header has a colon; write it such as max: squat 140 kg'],
    ['comment: windy', 'no header is called comment; write: note: windy'],
  ])('answers %s', (line, answer) => {
    const reading = readPrescription(`Day\n${line}\n\nrun\n  5 km\n`)
    const [message = ''] = 'problems' in reading ? reading.problems.map((problem) => problem.message) : []
    expect(message).toBe(answer)
    const written = /(?:write:|such as) (\w+: .*)$/.exec(message)?.[1] ?? ''
    expect(readPrescription(`Day\n${written}\n\nrun\n  5 km\n`)).not.toHaveProperty('problems')
  })

  it.each([
    'goal: 5 km in 19:59 and 10 km in 41:00',
    'goal: bench 100 kg',
    'goal: 10 km in 39:30, 40:00 in the heat',
    'date: 31 February 2026',
  ])('offers no line for %s, of which it would drop something', (line) => {
    const reading = readPrescription(`Day\n${line}\n\nrun\n  5 km\n`)
    expect('problems' in reading ? reading.problems.map(({ suggestion }) => suggestion) : []).toEqual([null])
  })

  it('puts each maximum on a line of its own', () => {
    const reading = readPrescription('Day\nmax: bench 90 kg, squat 120 kg\n\nrun\n  5 km\n')
    expect('problems' in reading ? reading.problems.map(({ message }) => message) : []).toEqual([
      'each maximum has a line of its own: write max: bench 90 kg and below it max: squat 120 kg',
    ])
  })
})

it('a time before its name is the amount of a prep item', () => {
  for (const [line, meant] of [
    ['5 min bike', 'bike 5 min'],
    ['10 min jog', 'jog 10 min'],
    ['warm up 5 min bike', 'warm up bike 5 min'],
    ['10min easy jog, "relaxed"', 'easy jog 10 min, "relaxed"'],
    ['2 x 30 s plank each side', 'plank 2 x 30 s each side'],
    ['3:00 of foam roll', 'foam roll 3:00'],
  ] as const) {
    const [read, said] = [line, meant].map((each) => readPrescription(`Day\nprep\n${each}\n`))
    expect(answersTo('prep', line)).toEqual([])
    const parts = [read, said].map((reading) =>
      reading !== undefined && 'prescription' in reading
        ? reading.prescription.parts.map(({ items }) => items.map((item) => ({ ...item, text: '' })))
        : null,
    )
    expect(parts[0]).toEqual(parts[1])
    expect(parts[0]).not.toBeNull()
  }
})
