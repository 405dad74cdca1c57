import type { DOMElement } from 'ink'
import { type RefObject, useContext, useLayoutEffect, useRef } from 'react'
import type { ClockLayout } from '../../recorder/nowLayout.ts'
import type { RecorderStore } from '../../recorder/store.ts'
import { PaintContext, type Patch } from '../../widgets/paint.ts'

/** Lets another time on the clock be shown without drawing the screen, where its digits take the place of those that
 * stand there.
 * @param onClock of the store
 * @param drawn how the clock is laid out now
 * @param layOut how it would be with another time
 * @returns for the box whose children are the clock's lines */
export function useClockPainter(
  onClock: RecorderStore['onClock'],
  drawn: ClockLayout,
  layOut: (text: string) => ClockLayout,
): RefObject<DOMElement | null> {
  const paint = useContext(PaintContext)
  const box = useRef<DOMElement>(null)
  useLayoutEffect(() => {
    const stop = onClock((text) => {
      const next = layOut(text)
      if (box.current === null || !isAlike(drawn, next)) return false
      const patch = patchOf(box.current, next.clock)
      return patch !== null && paint(patch)
    })
    // Whatever is drawn next comes after what was painted.
    return () => {
      stop()
      paint(null)
    }
  })
  return box
}

/** The same cells for the clock, and the same number in the same place. */
function isAlike(one: ClockLayout, other: ClockLayout): boolean {
  return (
    one.stacked === other.stacked &&
    isSame(one.number, other.number) &&
    isSame(one.clock.map(widthOf), other.clock.map(widthOf))
  )
}

function isSame<T>(one: readonly T[], other: readonly T[]): boolean {
  return one.length === other.length && one.every((each, index) => each === other[index])
}

/** The clock is of characters that are one cell wide each. */
function widthOf(line: string): number {
  return [...line].length
}

/** Where Ink has put the box, and the lines as it would colour them; null where something else may reach into them. */
function patchOf(box: DOMElement, lines: readonly string[]): Patch | null {
  const texts = box.childNodes.filter((node): node is DOMElement => node.nodeName === 'ink-text')
  const width = widthOf(lines[0] ?? '')
  const isWhole = texts.every((text) => (text.yogaNode?.getComputedWidth() ?? 0) >= width)
  if (texts.length !== lines.length || !isWhole) return null
  const place = { row: 0, column: 0 }
  for (let node: DOMElement | undefined = box; node !== undefined; node = node.parentNode) {
    const { yogaNode } = node
    if (!yogaNode) return null
    // What is too high for what it stands in may be written over by what comes below.
    if (place.row + lines.length > yogaNode.getComputedHeight()) return null
    if (place.column + width > yogaNode.getComputedWidth()) return null
    place.row += yogaNode.getComputedTop()
    place.column += yogaNode.getComputedLeft()
  }
  return {
    ...place,
    lines: lines.map((line, index) => texts[index]?.internal_transform?.(line, 0) ?? line),
  }
}
