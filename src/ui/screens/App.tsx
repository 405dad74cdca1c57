import { type ReactNode, useSyncExternalStore } from 'react'
import type { RecorderStore } from '../../recorder/store.ts'
import { AsciiContext } from '../widgets/KeyLine.tsx'
import { AskScreen } from './AskScreen.tsx'
import { DayEditor } from './DayEditor.tsx'
import { DecisionsScreen } from './DecisionsScreen.tsx'
import { ListScreen } from './ListScreen.tsx'
import { Progress } from './Progress.tsx'
import { Recorder } from './Recorder.tsx'
import { SummaryScreen } from './SummaryScreen.tsx'
import { TextScreen } from './TextScreen.tsx'
import { type Arrival, Today, type TodayGiven } from './Today.tsx'

const screens = {
  summary: SummaryScreen,
  list: ListScreen,
  text: TextScreen,
  editor: DayEditor,
  ask: AskScreen,
  decisions: DecisionsScreen,
  progress: Progress,
}
type Name = keyof typeof screens

/** Which screen is shown, and what it is given. */
export type Shown =
  /** `visit` differs each time, so that the days are read anew. */
  | ({ screen: 'today'; visit: number } & Arrival)
  | { screen: 'recorder'; store: RecorderStore }
  | { [N in Name]: { screen: N; given: Parameters<(typeof screens)[N]>[0] } }[Name]

/** The current screen is kept above the screens, because a signal or the end of a session changes it too. */
export interface Stage {
  get(): Shown
  subscribe(listener: () => void): () => void
}

interface Props {
  stage: Stage
  today: TodayGiven
  look: { ascii: boolean; plainClock: boolean }
}

export function App(props: Props) {
  return (
    <AsciiContext value={props.look.ascii}>
      <Screen {...props} />
    </AsciiContext>
  )
}

function Screen({ stage, today, look }: Props) {
  const shown = useSyncExternalStore(stage.subscribe, stage.get)
  if (shown.screen === 'today')
    return <Today key={shown.visit} given={today} picked={shown.picked} said={shown.said} />
  if (shown.screen === 'recorder') return <Recorder store={shown.store} look={look} />
  // Each question is a field of its own: what one said is not shown on the next.
  if (shown.screen === 'ask') return <AskScreen key={shown.given.label} {...shown.given} />
  const Named = screens[shown.screen] as (given: object) => ReactNode
  return <Named {...shown.given} />
}
