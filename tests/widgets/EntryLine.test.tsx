import { render } from 'ink-testing-library'
import { useState } from 'react'
import { describe, expect, it } from 'vitest'
import { EntryLine } from '../../src/ui/widgets/EntryLine.tsx'
import { createKeyFeed, KeyFeedContext } from '../../src/ui/widgets/keys.ts'

/** Accepts everything except letters typed into the empty field, which are commands. */
function Recorder({ commands }: { commands: string[] }) {
  const [draft, setDraft] = useState('')
  const changed = (value: string) => {
    if (draft === '' && /^[a-z]$/.test(value)) commands.push(value)
    else setDraft(value)
  }
  return <EntryLine label="set 3 of 5" value={draft} onChange={changed} placeholder="Enter: 92.5 x 3" />
}

function typed(...chunks: string[]) {
  const commands: string[] = []
  const recorder = <Recorder commands={commands} />
  const { stdin, lastFrame, rerender, unmount } = render(recorder)
  for (const chunk of chunks) {
    stdin.write(chunk)
    // As in the terminal's session: what a key began is finished before the next key.
    rerender(recorder)
    rerender(recorder)
  }
  const frame = lastFrame()
  unmount()
  return { frame, commands }
}

describe('the entry line', () => {
  it('shows the prompt and what Enter alone would do', () => {
    expect(typed().frame).toBe('set 3 of 5 >   Enter: 92.5 x 3')
  })

  it('shows the short label where the whole one would cut the offer', () => {
    const of = (placeholder: string) => {
      const line = { label: 'front squat, set 1 of 1', short: 'front squat', value: '', placeholder }
      const { lastFrame, unmount } = render(<EntryLine {...line} onChange={() => {}} />)
      const frame = lastFrame()
      unmount()
      return frame
    }
    expect(of('Enter: 5 x 90')).toBe('front squat, set 1 of 1 >   Enter: 5 x 90')
    const long = `Enter: ${'5 x 90, '.repeat(9)}`
    expect(of(long)).toMatch(/^front squat > {3}Enter: 5 x 90/)
  })

  it('shows the typed text instead of the offer', () => {
    expect(typed('9', '5').frame).toBe('set 3 of 5 > 95')
  })

  it('keeps the cursor in place after a letter that was a command', () => {
    const { frame, commands } = typed('u', 'u', '4', '2', '\x7f', '7')
    expect(commands).toEqual(['u', 'u'])
    expect(frame).toBe('set 3 of 5 > 47')
  })

  it('continues at the end of a restored draft', () => {
    const commands: string[] = []
    let value = ''
    const line = () => (
      <EntryLine label="" value={value} placeholder="" onChange={(next) => commands.push(next)} />
    )
    const { stdin, rerender, lastFrame, unmount } = render(line())
    value = '92.5 @8'
    rerender(line())
    rerender(line())
    stdin.write('.')
    rerender(line())
    expect(commands).toEqual(['92.5 @8.'])
    expect(lastFrame()).toBe('> 92.5 @8')
    unmount()
  })

  it.each([
    ['an emoji', '\u{1F605}'],
    ['an emoji of several characters', '\u{1F44D}\u{1F3FD}'],
    ['a letter with a mark of its own', 'e\u0301'],
  ])('deletes %s whole, at its end and before it', (_, whole) => {
    expect(typed('5', whole, '\x7f').frame).toBe('set 3 of 5 > 5')
    expect(typed('5', whole, '6', '\x1b[D', '\x7f', '7').frame).toBe('set 3 of 5 > 567')
  })

  it('has one line', () => {
    expect(typed('6:07\n6:05').frame).toBe('set 3 of 5 > 6:07 6:05')
  })

  it('is cleared by ctrl-u, and ctrl-w deletes its last word', () => {
    const feed = createKeyFeed()
    const commands: string[] = []
    const recorder = (
      <KeyFeedContext value={feed}>
        <Recorder commands={commands} />
      </KeyFeedContext>
    )
    const { stdin, lastFrame, rerender, unmount } = render(recorder)
    const after = (act: () => void) => {
      act()
      rerender(recorder)
      rerender(recorder)
      return lastFrame()
    }
    const press = (name: 'ctrl+u' | 'ctrl+w' | 'ctrl+x') => feed.press({ kind: 'named', name })
    after(() => stdin.write('5:10 hr 140 '))
    expect(after(() => expect(press('ctrl+w')).toBe(true))).toBe('set 3 of 5 > 5:10 hr')
    expect(after(() => stdin.write('139'))).toBe('set 3 of 5 > 5:10 hr 139')
    expect(after(() => press('ctrl+u'))).toBe('set 3 of 5 >   Enter: 92.5 x 3')
    expect(after(() => press('ctrl+w'))).toBe('set 3 of 5 >   Enter: 92.5 x 3')
    expect(press('ctrl+x')).toBe(false)
    expect(commands).toEqual([])
    unmount()
  })
})
