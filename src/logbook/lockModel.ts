import * as z from 'zod'

/** Who holds a lock, and a name that no other lock has. */
export const LockText = z.object({
  pid: z.int(),
  host: z.string(),
  boot: z.string().nullable(),
  began: z.string().nullable(),
  /** Of process numbers; absent in locks of earlier versions. */
  space: z.string().nullable().optional(),
  at: z.string(),
  name: z.string().regex(/^[\w-]{1,40}$/),
})
export type LockText = z.infer<typeof LockText>
