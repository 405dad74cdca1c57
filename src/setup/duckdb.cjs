// Asks DuckDB the same questions over the session files: node src/setup/duckdb.cjs (lift|run|history) LOGBOOK
const { join } = require('node:path')

/* A step's name tells where a set belongs: `2.1.s3` is in the first item of the second part. Asks only about lines with
 * one exercise. */
const sets = `
  select
    id,
    ((events[1])->>'date')::date as date,
    event->>'$.step' as step,
    (event->>'$.result.reps')::int as reps,
    (event->>'$.result.load.value')::double as kg,
    prescription
  from (select id, events, prescription, unnest(events) as event from sessions)
  where event->>'type' = 'setRecorded'`

const exercise = `prescription->>('$.parts[' || (split_part(step, '.', 1)::int - 1) || '].items['
    || (split_part(step, '.', 2)::int - 1) || '].exercises[0].name')`

const questions = {
  lift: `
    select strftime(date, '%G-W%V') as week, count(*)::int as sets, sum(reps)::int as reps, sum(reps * kg) as tonnageKg
    from (${sets}) where ${exercise} = 'front squat'
    group by week order by week`,
  run: `
    select strftime(((events[1])->>'date')::date, '%G-W%V') as week,
      sum((event->>'$.result.meters')::double) as meters, sum((event->>'$.result.seconds')::double) as seconds
    from (select events, unnest(events) as event from sessions) where event->>'type' = 'pieceRecorded'
    group by week order by week`,
  history: `
    select id, (events[1])->>'date' as date, prescription->>'title' as title,
      list_sum([(event->>'$.result.meters')::double for event in events if event->>'type' = 'pieceRecorded']) as meters,
      len([event for event in events if event->>'type' = 'setRecorded'])::int as sets,
      list_sum([(event->>'effort')::double * (event->>'minutes')::double
        for event in events if event->>'type' = 'partClosed']) as effortMinutes
    from sessions order by date desc`,
}

/** Rows of the answer. @param question `lift`: sets, repetitions and tonnage of the front squat by ISO week;
 * `run`: metres and seconds of running by ISO week; `history`: the sessions, newest first */
exports.askDuckDb = async function askDuckDb(question, logbook) {
  const { DuckDBInstance } = await import('@duckdb/node-api')
  const instance = await DuckDBInstance.create()
  const connection = await instance.connect()
  const files = join(logbook, 'sessions', '*', '*.json').replaceAll("'", "''")
  const sessions = `with sessions as (
    select * from read_json('${files}', columns = {id: 'VARCHAR', prescription: 'JSON', events: 'JSON[]'})
  )`
  const reader = await connection.runAndReadAll(`${sessions} ${questions[question]}`)
  return reader.getRowObjectsJson()
}

if (require.main === module) {
  exports.askDuckDb(process.argv[2], process.argv[3]).then((rows) => {
    process.stdout.write(`${JSON.stringify(rows)}\n`)
  })
}
