import type { Line } from './line.ts'
import type { Wrong } from './syntax.ts'

const deepest = 4

/** Looked at before the grammar sees the line, whose rules would go as deep as the brackets do. */
export function tooDeep(line: Line): Wrong | null {
  let depth = 0
  let isQuoted = false
  for (const [place, character] of [...line.text].entries()) {
    if (character === '"') isQuoted = !isQuoted
    if (isQuoted) continue
    if (character === '(') depth++
    if (character === ')') depth--
    if (depth > deepest) {
      const at = [...line.text].slice(0, place).join('').length
      return { at: [at, at + 1], message: `brackets can be ${deepest} deep, no more`, fixed: false }
    }
  }
  return null
}

/** A bracket without its other half; null where they all match. Of two open ones it is the inner. */
export function looseBracket(text: string): Wrong | null {
  const open: number[] = []
  for (let place = 0; place < text.length; place++) {
    if (text[place] === '(') open.push(place)
    if (text[place] !== ')') continue
    if (open.pop() === undefined)
      return {
        at: [place, place + 1],
        message: 'this bracket closes nothing: open one before the first step',
        fixed: false,
      }
  }
  const last = open.at(-1)
  if (last === undefined) return null
  return {
    at: [last, last + 1],
    message: 'this bracket is never closed: write ) behind the last step',
    fixed: false,
  }
}
