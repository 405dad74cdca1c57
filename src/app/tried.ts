/** Null when it worked; else why not, to be shown. */
export function tried(change: () => unknown): string | null {
  try {
    change()
    return null
  } catch (error) {
    return error instanceof Error ? error.message : String(error)
  }
}
