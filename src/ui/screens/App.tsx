import { useSyncExternalStore } from 'react'
import type { RecorderStore } from '../../recorder/store.ts'
import { AsciiContext } from '../widgets/KeyLine.tsx'
import { FirstStart } from './FirstStart.tsx'
import { History } from './History.tsx'
import { Progress } from './Progress.tsx'
import { Recorder } from './Recorder.tsx'
import { ResumeQuestion } from './ResumeQuestion.tsx'
import { SummaryScreen } from './SummaryScreen.tsx'
import { type AppActions, Today } from './Today.tsx'

/** Which screen is shown, and what it is given. */
export type Shown =
  | { screen: 'firstStart'; given: Parameters<typeof FirstStart>[0] }
  | { screen: 'today' }
  | { screen: 'resume'; given: Parameters<typeof ResumeQuestion>[0] }
  | { screen: 'recorder'; store: RecorderStore }
  | { screen: 'summary'; given: Parameters<typeof SummaryScreen>[0] }
  | { screen: 'history'; given: Parameters<typeof History>[0] }
  | { screen: 'progress'; given: Parameters<typeof Progress>[0] }

/** What is shown lives above the screens: a signal, or the end of a session, changes it too. */
export interface Stage {
  get(): Shown
  subscribe(listener: () => void): () => void
}

interface Props {
  stage: Stage
  actions: AppActions
  look: { ascii: boolean; plainClock: boolean }
}

export function App(props: Props) {
  return (
    <AsciiContext value={props.look.ascii}>
      <Screen {...props} />
    </AsciiContext>
  )
}

function Screen({ stage, actions, look }: Props) {
  const shown = useSyncExternalStore(stage.subscribe, stage.get)
  switch (shown.screen) {
    case 'firstStart':
      return <FirstStart {...shown.given} />
    case 'today':
      return <Today actions={actions} />
    case 'resume':
      return <ResumeQuestion {...shown.given} />
    case 'recorder':
      return <Recorder store={shown.store} look={look} />
    case 'summary':
      return <SummaryScreen {...shown.given} />
    case 'history':
      return <History {...shown.given} />
    case 'progress':
      return <Progress {...shown.given} />
  }
}
