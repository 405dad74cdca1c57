import { useSyncExternalStore } from 'react'
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

/** Which screen is shown, and what it is given. */
export type Shown =
  /** `visit` differs each time, so that the days are read anew. */
  | ({ screen: 'today'; visit: number } & Arrival)
  | { screen: 'recorder'; store: RecorderStore }
  | { screen: 'summary'; given: Parameters<typeof SummaryScreen>[0] }
  | { screen: 'list'; given: Parameters<typeof ListScreen>[0] }
  | { screen: 'text'; given: Parameters<typeof TextScreen>[0] }
  | { screen: 'editor'; given: Parameters<typeof DayEditor>[0] }
  | { screen: 'ask'; given: Parameters<typeof AskScreen>[0] }
  | { screen: 'decisions'; given: Parameters<typeof DecisionsScreen>[0] }
  | { screen: 'progress'; given: Parameters<typeof Progress>[0] }

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
  switch (shown.screen) {
    case 'today':
      return <Today key={shown.visit} given={today} picked={shown.picked} said={shown.said} />
    case 'recorder':
      return <Recorder store={shown.store} look={look} />
    case 'summary':
      return <SummaryScreen {...shown.given} />
    case 'list':
      return <ListScreen {...shown.given} />
    case 'text':
      return <TextScreen {...shown.given} />
    case 'editor':
      return <DayEditor {...shown.given} />
    case 'ask':
      return <AskScreen {...shown.given} />
    case 'decisions':
      return <DecisionsScreen {...shown.given} />
    case 'progress':
      return <Progress {...shown.given} />
  }
}
