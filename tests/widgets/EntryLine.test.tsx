import { render } from 'ink-testing-library'
import { describe, expect, it } from 'vitest'
import { EntryLine } from '../../src/ui/widgets/EntryLine.tsx'

function shown(text: string, placeholder: string, column = text.length): string | undefined {
  const line = { text, column }
  const { lastFrame, unmount } = render(
    <EntryLine label="front squat, set 1 of 1" short="front squat" line={line} placeholder={placeholder} />,
  )
  const frame = lastFrame()
  unmount()
  return frame
}

describe('the entry line', () => {
  it('shows the prompt and what Enter alone would do', () => {
    expect(shown('', 'Enter: 5 x 90')).toBe('front squat, set 1 of 1 >   Enter: 5 x 90')
  })

  it('shows the short label where the whole one would cut the offer', () => {
    expect(shown('', `Enter: ${'5 x 90, '.repeat(9)}`)).toMatch(/^front squat > {3}Enter: 5 x 90/)
  })

  it('shows the typed text instead of the offer, with a cell for the cursor at its end', () => {
    expect(shown('95', 'Enter: 5 x 90')).toBe('front squat, set 1 of 1 > 95')
    expect(shown('95 🏃', 'Enter: 5 x 90', 3)).toBe('front squat, set 1 of 1 > 95 🏃')
  })

  it('shows the end of a text that is longer than the line', () => {
    expect(shown('1234567890'.repeat(10), '')).toMatch(/^front squat, set 1 of 1 > …[0-9]{60,}$/)
  })
})
