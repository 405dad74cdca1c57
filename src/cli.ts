import { main } from './commands/main.ts'

await main()
