import { main } from './commands/main.ts'

void main()
