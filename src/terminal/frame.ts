/** What to send to a terminal that shows `before` so that it shows `after`: only the lines that differ, each
 * put in its place. Nothing when none differs. `before` null: what it shows is not known.
 * @param rows height of the terminal; the last row stays empty, so that nothing ever scrolls */
export function frameUpdate(
  before: readonly string[] | null,
  after: readonly string[],
  rows: number,
): string {
  const height = Math.min(Math.max(before?.length ?? 0, after.length), rows - 1)
  const lines: string[] = []
  for (let row = 0; row < height; row++) {
    const line = after[row] ?? ''
    if (before === null ? line !== '' : line !== (before[row] ?? '')) {
      // Erased first: behind a full line the cursor stands on its last character, and would take it away.
      lines.push(`\x1b[${row + 1};1H\x1b[0m\x1b[K${line}\x1b[0m`)
    }
  }
  const cleared = before === null ? '\x1b[0m\x1b[2J' : ''
  if (lines.length === 0 && cleared === '') return ''
  return atOnce(`${cleared}${lines.join('')}`)
}

/** DEC private mode 2026: the terminal shows all of it, or nothing yet. */
function atOnce(update: string): string {
  return `\x1b[?2026h${update}\x1b[?2026l`
}
