import { render } from 'ink-testing-library'
import { describe, expect, it } from 'vitest'
import { KeyLine } from '../../src/ui/widgets/KeyLine.tsx'
import { createKeyFeed, KeyFeedContext, useKeys } from '../../src/ui/widgets/keys.ts'
import { PickList } from '../../src/ui/widgets/Lines.tsx'

function frameOf(element: Parameters<typeof render>[0]): string | undefined {
  const { lastFrame, unmount } = render(element)
  const frame = lastFrame()
  unmount()
  return frame
}

describe('widgets', () => {
  it('draw the line of keys', () => {
    const hints = [
      { key: '↑ ↓', label: 'rest +/-' },
      { key: '?', label: 'keys' },
    ]
    expect(frameOf(<KeyLine hints={hints} columns={40} />)).toBe('↑ ↓ rest +/-   ?')
  })

  it('draw rows around the picked one, and as much of the last one as fits', () => {
    const rows = [['a'], ['b', 'bb'], ['c', 'cc', 'ccc'], ['d'], ['e', 'ee']]
    const shown = (picked: number, room: number) =>
      frameOf(<PickList rows={rows} picked={picked} room={room} />)?.trimEnd()
    expect(shown(0, 3)).toBe('> a\n  b\n  bb')
    expect(shown(1, 4)).toBe('  a\n> b\n  bb\n  c')
    expect(shown(2, 4)).toBe('> c\n  cc\n  ccc\n  d')
    expect(shown(2, 2)).toBe('> c\n  cc')
    expect(shown(4, 4)).toBe('  d\n> e\n  ee')
    expect(shown(3, 20)?.split('\n')).toHaveLength(9)
  })

  it('ask the component on top for a key first, and stop when it is gone', () => {
    const feed = createKeyFeed()
    const heard: string[] = []
    function Listener({ name, takes }: { name: string; takes: boolean }) {
      useKeys(() => {
        heard.push(name)
        return takes
      })
      return null
    }
    const tree = (isOpen: boolean) => (
      <KeyFeedContext value={feed}>
        <Listener name="screen" takes={false} />
        {isOpen ? <Listener name="page" takes={true} /> : null}
      </KeyFeedContext>
    )
    const { rerender, unmount } = render(tree(true))
    expect(feed.press({ kind: 'text', text: 'u' })).toBe(true)
    rerender(tree(false))
    expect(feed.press({ kind: 'text', text: 'u' })).toBe(false)
    expect(heard).toEqual(['page', 'screen'])
    unmount()
    expect(feed.press({ kind: 'text', text: 'u' })).toBe(false)
    expect(heard).toHaveLength(2)
  })
})
