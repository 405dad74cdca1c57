/** Null if it worked; else the reason, to be shown. */
export function attempt(change: () => unknown): string | null {
  try {
    change()
    return null
  } catch (error) {
    return messageOf(error)
  }
}

/** What went wrong, to be shown. */
export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
