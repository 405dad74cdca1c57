import { type AskContent, AskScreen } from './AskScreen.tsx'
import { DayEditor, type EditorContent } from './DayEditor.tsx'
import { type ListContent, ListScreen } from './ListScreen.tsx'
import { Recorder, type RecorderContent } from './Recorder.tsx'
import { type TextContent, TextScreen } from './TextScreen.tsx'

/** What is on a screen, as data: the app draws it or says it. */
export type Screen =
  | ({ kind: 'text' } & TextContent)
  | ({ kind: 'list' } & ListContent)
  | ({ kind: 'ask' } & AskContent)
  | ({ kind: 'editor' } & EditorContent)
  | ({ kind: 'recorder' } & RecorderContent)

export function ScreenOf({ screen }: { screen: Screen }) {
  switch (screen.kind) {
    case 'text':
      return <TextScreen {...screen} />
    case 'list':
      return <ListScreen {...screen} />
    case 'ask':
      return <AskScreen {...screen} />
    case 'editor':
      return <DayEditor {...screen} />
    case 'recorder':
      return <Recorder {...screen} />
  }
}
