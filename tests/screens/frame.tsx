import { EventEmitter } from 'node:events'
import { render } from 'ink'
import { Fragment, type ReactNode, useState } from 'react'
import { ScreenOf } from '../../src/app/openApp.tsx'
import type { Screen } from '../../src/app/screens.ts'
import { InkInput } from '../../src/ui/terminal/inkStreams.ts'
import { createKeyFeed, type KeyFeed, KeyFeedContext } from '../../src/ui/widgets/keys.ts'

/* A screen drawn into text at any size; ink-testing-library has one width and no height. */

class Paper extends EventEmitter {
  frame = ''
  /** Before it unmounts, Ink draws a last frame, except on a destroyed stream. */
  destroyed = false
  constructor(
    readonly columns: number,
    readonly rows: number,
  ) {
    super()
  }
  write(frame: string): boolean {
    this.frame = frame
    return true
  }
}

export interface Drawn {
  feed: KeyFeed
  /** The current screen, without spaces at the ends of lines. */
  text(): string
  /** Draws what has changed since, or another screen. */
  again(another?: ReactNode): void
  unmount(): void
}

export function drawn(screen: ReactNode, columns: number, rows: number): Drawn {
  const paper = new Paper(columns, rows)
  const feed = createKeyFeed()
  const treeOf = (shown: ReactNode) => <KeyFeedContext value={feed}>{shown}</KeyFeedContext>
  const tree = treeOf(screen)
  const app = render(tree, {
    stdin: new InkInput() as unknown as NodeJS.ReadStream,
    stdout: paper as unknown as NodeJS.WriteStream,
    debug: true,
    exitOnCtrlC: false,
    patchConsole: false,
  })
  return {
    feed,
    text: () =>
      paper.frame
        .split('\n')
        .map((line) => line.trimEnd())
        .join('\n'),
    again: (another) => app.rerender(another === undefined ? tree : treeOf(another)),
    unmount: () => {
      paper.destroyed = true
      app.unmount()
    },
  }
}

/** Shows screens one after the other as the program does, each with fresh state.
 * @param first shows the first one */
export function Showing({ first }: { first: (show: (screen: Screen) => void) => void }) {
  const [{ screen, number }, setShown] = useState(() => {
    const begun: { screen: Screen | null; number: number } = { screen: null, number: 0 }
    first((screen) => {
      if (begun.screen === null) begun.screen = screen
      else setShown((before) => ({ screen, number: before.number + 1 }))
    })
    return begun
  })
  return <Fragment key={number}>{screen && <ScreenOf screen={screen} />}</Fragment>
}
