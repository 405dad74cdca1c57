import { appendFileSync } from 'node:fs'
import { Box, Text } from 'ink'
import { useEffect, useState } from 'react'
import { runScreens, type ScreenTerminal } from '../../../src/ui/terminal/runScreens.tsx'
import { EntryLine } from '../../../src/ui/widgets/EntryLine.tsx'
import { useKeys } from '../../../src/ui/widgets/keys.ts'
import { useTerminalSize } from '../../../src/ui/widgets/terminalSize.ts'

/* The smallest app on the real session: the entry field, its last entry, the size of the window. */

function Trial({ terminal }: { terminal: ScreenTerminal }) {
  const [value, setValue] = useState('')
  const [entered, setEntered] = useState<string[]>([])
  const [broken, setBroken] = useState(false)
  const { columns, lines } = useTerminalSize()
  // Like a clock: a screen that is still mounted after the end would keep the process alive.
  useEffect(() => {
    const clock = setInterval(() => {}, 1000)
    return () => clearInterval(clock)
  }, [])
  if (broken) throw new Error('broken on purpose')
  useKeys((key) => {
    if (key.kind === 'named' && key.name === 'enter') {
      setValue((current) => {
        setEntered((before) => [...before.slice(-3), current])
        return ''
      })
      return true
    }
    if (key.kind !== 'text' || value !== '') return false
    if (key.text === 'q') terminal.exit(0)
    else if (key.text === 'w') terminal.exit(7)
    else if (key.text === 'x') setBroken(true)
    else if (key.text === 'c') terminal.copy('21,1 km')
    else if (key.text === 'b') terminal.ring()
    else return false
    return true
  })
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Text wrap="truncate">
        size {columns} x {lines} {'-'.repeat(300)}
      </Text>
      <Text>entered {JSON.stringify(entered)}</Text>
      <Box flexGrow={1} />
      <EntryLine label="" value={value} onChange={setValue} placeholder="" />
    </Box>
  )
}

process.exitCode = await runScreens({
  isUnicode: true,
  start: (terminal) => terminal.show(<Trial terminal={terminal} />),
  leave: () => appendFileSync(process.argv[2] as string, 'left\n'),
}).catch((error: Error) => {
  process.stderr.write(`failed: ${error.message}\n`)
  return 1
})
