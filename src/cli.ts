import { main } from './commands/program.ts'

void main()
