/* Every bit of a session's and of the settings' file; the ordinary tests flip every thirteenth. */
process.env.PAUSEBOOK_ALL_BITS = '1'
await import('./checksum.test.ts')

export {}
