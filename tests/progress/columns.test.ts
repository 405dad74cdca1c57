import { expect, test } from 'vitest'
import { type Column, tableLines } from '../../src/progress/chart.ts'

test('a table has columns as wide as their widest cell, with names aligned left and figures right', () => {
  const rows = [
    ['2026-W47', '388', '2656'],
    ['W48', '', ''],
  ]
  const columns: Column<string[]>[] = [
    ['week', ([week = '']) => week],
    ['Mon', ([, monday = '']) => monday],
    ['Tue', () => '?', false],
    ['sum', ([, , sum = '']) => sum, true],
  ]
  expect(tableLines(columns, rows)).toEqual(['week      Mon   sum', '2026-W47  388  2656', 'W48'])
  expect(tableLines(columns, [])).toEqual(['week  Mon  sum'])
})
