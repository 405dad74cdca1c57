import { Box, Text } from 'ink'
import { useContext, useState } from 'react'
import { AsciiContext, KeyLine, withoutArrows } from './KeyLine.tsx'
import { type Key, nameOf } from './keys.ts'
import { hanging } from './wrapped.ts'

/** A key as the key line and the page of keys name it. */
export interface NamedForPeople {
  /** As shown to people: `Enter`, `↑ ↓`. */
  key: string
  /** A word or two for the key line. */
  label: string
  /** One line for the page of keys. */
  does: string
}

/** A key of a screen without a field. */
export interface ScreenKey extends NamedForPeople {
  /** What it does, by the names of the keyboard (`nameOf`): those it stands for, and those that do the same. */
  acts: Readonly<Record<string, () => void>>
}

/** Does what one of these keys does when it is pressed; a key that is none of them does nothing. */
export function actOn(key: Key, keys: readonly ScreenKey[]): void {
  const name = nameOf(key)
  keys.find(({ acts }) => Object.hasOwn(acts, name))?.acts[name]?.()
}

/** `?` opens the page of keys of a screen, any other key closes it. Calls `takes` for each key first. */
export function useKeyPage(): { isOpen: boolean; takes(key: Key): boolean } {
  const [isOpen, setOpen] = useState(false)
  return {
    isOpen,
    takes: (key) => {
      if (isOpen) setOpen(false)
      else if (key.kind === 'text' && key.text === '?') setOpen(true)
      else return false
      return true
    },
  }
}

export function KeyPage(props: { keys: readonly NamedForPeople[]; columns: number; lines: number }) {
  const { keys, columns, lines } = props
  const isAscii = useContext(AsciiContext)
  const named = keys.map((each) => ({ ...each, key: isAscii ? withoutArrows(each.key) : each.key }))
  const width = Math.max(...named.map(({ key }) => [...key].length)) + 2
  const rows = named.flatMap(({ key, does }) => hanging(key, does, width, columns))
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Box flexDirection="column" height={lines - 1}>
        {['keys', ...rows].slice(0, lines - 1).map((line, index) => (
          <Text key={index} bold={index === 0} wrap="truncate">
            {line}
          </Text>
        ))}
      </Box>
      <KeyLine columns={columns} hints={[{ key: 'any key', label: 'back' }]} />
    </Box>
  )
}

/** `useKeyPage` acts on it. */
export const keysKey: ScreenKey = { key: '?', label: 'keys', does: 'this page', acts: {} }
