import { createContext } from 'react'

/** Whether only ASCII characters may be drawn: `<AsciiContext value={true}>` around everything. */
export const AsciiContext = createContext(false)

const names: Readonly<Record<string, string>> = { '↑': 'Up', '↓': 'Down', '←': 'Left', '→': 'Right' }

/** Arrows as the words that stand on the keys: `↑ ↓` is `Up Down`. */
export function withoutArrows(text: string): string {
  return text.replace(/[↑↓←→]/g, (arrow) => names[arrow] ?? arrow)
}
