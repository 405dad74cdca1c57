import { printNumber } from '../units/decimal.ts'

const tallest = 7
const smallest = 1

/** One side of the bar in plain characters: the sleeve from the left, plates as they hang on it, the heavier
 * the taller, and their masses below.
 * @param side plates from the inside out
 * @param heaviest the mass that is drawn tallest
 * @returns lines without spaces at their ends; empty when they would be wider than `columns` */
export function drawSide(side: readonly number[], heaviest: number, columns: number): string[] {
  const labels = side.map((mass) => printNumber(mass))
  const width = Math.max(2, ...labels.map((label) => label.length)) + 1
  const heights = side.map((mass) => heightOf(mass, heaviest))
  const grip = 10
  if (grip + width * side.length + 6 > columns) return []
  const rows = Array.from({ length: tallest }, (_, index) => {
    const isSleeve = index === Math.floor(tallest / 2)
    const line = isSleeve ? '=' : ' '
    const plates = heights.map((height) => {
      const isPlate = Math.abs(index - Math.floor(tallest / 2)) <= (height - 1) / 2
      return (isPlate ? '||' : line.repeat(2)) + line.repeat(width - 2)
    })
    return line.repeat(grip) + plates.join('') + (isSleeve ? '====' : '')
  })
  const below = ' '.repeat(grip) + labels.map((label) => label.padEnd(width)).join('')
  const drawn = rows.map((row) => row.trimEnd()).filter((row) => row !== '')
  return side.length === 0 ? drawn : [...drawn, below.trimEnd()]
}

/** An odd number of rows, so that a plate stands evenly about the sleeve. */
function heightOf(mass: number, heaviest: number): number {
  const steps = (tallest - smallest) / 2
  return smallest + 2 * Math.min(steps, Math.max(1, Math.round((mass / heaviest) * steps)))
}
