import { readSettings } from '../logbook/settings.ts'
import { AskScreen } from '../ui/screens/AskScreen.tsx'
import { DayEditor } from '../ui/screens/DayEditor.tsx'
import { ListScreen } from '../ui/screens/ListScreen.tsx'
import { Recorder } from '../ui/screens/Recorder.tsx'
import { TextScreen } from '../ui/screens/TextScreen.tsx'
import { isUnicodeTerminal } from '../ui/terminal/capabilities.ts'
import { runScreens } from '../ui/terminal/runScreens.tsx'
import { App } from './app.ts'
import type { Opening, Screen } from './screens.ts'

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

interface AppOptions extends Opening {
  /** Defaults to the process's terminal. */
  streams?: Parameters<typeof runScreens>[1]
}

/** Opens the terminal app; resolves to the exit status when it is left. */
export async function openApp(options: AppOptions): Promise<number> {
  const { characters } = readSettings(options.logbook.directory).settings
  const app = new App(options)
  const status = await runScreens(
    {
      isUnicode: characters === 'unicode' || (characters === 'auto' && isUnicodeTerminal(options.env)),
      start: (terminal) => app.start(terminal, (screen) => terminal.show(<ScreenOf screen={screen} />)),
      together: (apply) => app.together(apply),
      leave: () => app.close(),
    },
    options.streams,
  )
  app.failIfUnsaved()
  return status
}
