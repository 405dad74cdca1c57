import { range } from 'd3-array'
import { type Equipment, type LoadedBar, loadBar } from '../figures/bar.ts'
import { barIn, type Settings } from '../logbook/settings.ts'
import { settingKeyOf } from '../logbook/settingsKeys.ts'
import { sideText } from '../session/load.ts'
import { printNumber } from '../units/decimal.ts'
import { formatMass, kilogramsOf, massIn, readMass } from '../units/mass.ts'
import type { Mass, MassUnit } from '../units/model.ts'
import { CommandError, type CommandInput, type ExitCode, invalid, show } from './command.ts'
import { contextOf } from './context.ts'

/** What goes on each side of the bar.
 * @throws CommandError for a load, bar, collar or plates that cannot be read, and for a load below the bar */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { settings, units } = contextOf(input)
  const load = parseLoad(input.words.join(' '), units.mass, '92.5 kg or 225 lb')
  const equipment = equipmentOf(input, settings, load.unit)
  const bare = equipment.bar + 2 * equipment.collar
  if (load.value < bare) {
    const without = equipment.collar > 0 ? 'the bar and its collars alone' : 'the bar alone'
    throw new CommandError(
      'below_bar',
      `${formatMass(load)} is less than ${without}, ${formatMass({ value: bare, unit: load.unit })}. Give at least that, or another bar with --bar.`,
    )
  }
  const loaded = loadBar(load.value, equipment)
  show(input, figuresOf(load, equipment, loaded), loadedText(load, equipment, loaded, input.io.columns))
  return 0
}

/** The bar, collars and plates of the settings, overridden by the options, all in one unit. */
function equipmentOf(input: CommandInput, settings: Settings, unit: MassUnit): Equipment {
  const { bar, collars, have } = input.values
  const own = barIn(settings, unit)
  return {
    bar: bar === undefined ? own.bar : massIn(parseLoad(bar, unit, '20 kg'), unit),
    collar: collars === undefined ? own.collar : parseCollar(collars, unit),
    plates: have === undefined ? own.plates : parsePlates(have, settings, unit),
  }
}

function parseLoad(text: string, unit: MassUnit, example: string): Mass {
  const mass = readMass(text, unit)
  if (mass !== null) return mass
  throw invalid('mass', text, `Example: ${example}.`, 'bad_mass')
}

function parseCollar(text: string, unit: MassUnit): number {
  return /^0(\.0+)?( ?(kg|lb))?$|^none$/i.test(text.trim())
    ? 0
    : massIn(parseLoad(text, unit, '2.5 kg, the mass of one collar, or none'), unit)
}

function parsePlates(text: string, settings: Settings, unit: MassUnit): Equipment['plates'] {
  const setting = settingKeyOf(`plates-${unit}`)
  const read = setting.read(text.trim(), settings, '')
  if (read !== undefined) return read.plates[unit]
  const what = `"${text}" cannot be read as plates in ${unit}.`
  throw new CommandError('bad_plates', `${what} Write ${setting.write}.`, { exit: 2 })
}

function figuresOf(load: Mass, equipment: Equipment, loaded: ReturnType<typeof loadBar>) {
  const withKg = (made: LoadedBar | null) =>
    made && { load: made.load, kg: kilogramsOf({ value: made.load, unit: load.unit }), side: made.side }
  return {
    load: load.value,
    unit: load.unit,
    kg: kilogramsOf(load),
    bar: equipment.bar,
    collar: equipment.collar,
    exact: withKg(loaded.exact),
    below: withKg(loaded.below),
    above: withKg(loaded.above),
  }
}

function loadedText(
  load: Mass,
  { bar, collar, plates }: Equipment,
  loaded: ReturnType<typeof loadBar>,
  columns: number,
): string {
  const text = (value: number) => formatMass({ value, unit: load.unit })
  const on = `bar ${text(bar)}${collar > 0 ? `, collars ${text(collar)} each` : ''}`
  if (loaded.exact !== null) {
    const heaviest = Math.max(0, ...plates.map((plate) => plate.mass))
    const drawing = drawSide(loaded.exact.side, heaviest, columns)
    const side = [sideText(loaded.exact), ...(drawing.length > 0 ? ['', ...drawing] : [])]
    return `${formatMass(load)} (${on})\n\n${side.map((line) => `  ${line}`.trimEnd()).join('\n')}\n`
  }
  const near = [loaded.below, loaded.above].filter((made) => made !== null)
  const width = Math.max(...near.map((made) => text(made.load).length))
  const rows = near.map((made) => `  ${text(made.load).padStart(width)}  ${sideText(made)}`)
  return `Nothing here makes ${formatMass(load)} (${on}). The nearest:\n\n${rows.join('\n')}\n`
}

/** Rows of the heaviest plate above and below the sleeve. */
const tallest = 3

/** Draws one side of the bar in plain characters: the sleeve from the left, the plates on it (heavier ones taller), and
 * their masses below.
 * @param side plates from the inside out
 * @param heaviest the mass drawn tallest
 * @returns lines without trailing spaces; empty when they would be wider than `columns` */
export function drawSide(side: readonly number[], heaviest: number, columns: number): string[] {
  const labels = side.map((mass) => printNumber(mass))
  const width = Math.max(2, ...labels.map((label) => label.length)) + 1
  const heights = side.map((mass) => Math.max(1, Math.round((mass / heaviest) * tallest)))
  const grip = 10
  if (grip + width * side.length + 6 > columns) return []
  const rows = range(-tallest, tallest + 1).map((row) => {
    const line = row === 0 ? '=' : ' '
    const plates = heights.map((height) =>
      (Math.abs(row) <= height ? '||' : line.repeat(2)).padEnd(width, line),
    )
    return line.repeat(grip) + plates.join('') + (row === 0 ? '====' : '')
  })
  const below = ' '.repeat(grip) + labels.map((label) => label.padEnd(width)).join('')
  return [...rows, below].map((row) => row.trimEnd()).filter((row) => row !== '')
}
