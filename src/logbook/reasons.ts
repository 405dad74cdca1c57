const reasons: Record<string, string> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  EIO: 'the disk reports an error',
  EROFS: 'the disk is read-only',
  EACCES: 'the folder may not be written to',
  EPERM: 'the folder may not be written to',
  ENOENT: 'the folder is gone',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
  EFBIG: 'the file would be too large',
  ETIMEDOUT: 'the disk does not answer',
  ESTALE: 'the network folder is gone',
}

/** Why a file could not be written, as the end of a sentence: "the disk is full". */
export function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException | null)?.code
  if (code === undefined) return error instanceof Error ? error.message : String(error)
  return reasons[code] ?? `the system says ${code}`
}
