import { useStdout } from 'ink'
import { useLayoutEffect, useState } from 'react'

interface TerminalSize {
  columns: number
  /** Lines that may be drawn: one less than the terminal has, so that it never scrolls. */
  lines: number
}

/** The terminal's size, now and after each change of the window; 80 x 23 if unknown. */
export function useTerminalSize(): TerminalSize {
  const { stdout } = useStdout()
  const [size, setSize] = useState(() => sizeOf(stdout))
  useLayoutEffect(() => {
    const resized = () => setSize(sizeOf(stdout))
    stdout.on('resize', resized)
    return () => void stdout.off('resize', resized)
  }, [stdout])
  return size
}

function sizeOf(stdout: { columns?: number; rows?: number }): TerminalSize {
  return { columns: stdout.columns || 80, lines: (stdout.rows || 24) - 1 }
}
