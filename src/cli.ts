#!/usr/bin/env node
import { main } from './commands/main.ts'

await main()
