-- The commonest questions about a study, for DuckDB.
-- Put the study folder in the place of STUDY; each question stands alone.

-- What is in the corpus, by style?
select style, count(*) as solos, count(distinct performer) as players, sum(notes) as notes,
       sum(phrases) as phrases
from read_parquet('STUDY/tables/solos/*.parquet')
where role = 'corpus'
group by all
order by all;

-- How long are the phrases of each style, in bars?
select s.style, count(*) as phrases, round(median(p.length_bars), 2) as median_bars
from read_parquet('STUDY/tables/phrases/*.parquet') p
join read_parquet('STUDY/tables/solos/*.parquet') s using (solo_id)
where s.role = 'corpus'
group by all
order by all;

-- On which beat of a 4/4 bar do phrases start and end?
select beat, round(avg(starts), 3) as starts, round(avg(ends), 3) as ends, count(*) as solos
from (
  select p.solo_id, b.beat,
         avg((floor(f.position_num / f.position_den) + 1 = b.beat)::int) as starts,
         avg((floor(l.position_num / l.position_den) + 1 = b.beat)::int) as ends
  from read_parquet('STUDY/tables/phrases/*.parquet') p
  join read_parquet('STUDY/tables/solos/*.parquet') s using (solo_id)
  join read_parquet('STUDY/tables/notes/*.parquet') f
    on f.solo_id = p.solo_id and f.note_index = p.first_note_index
  join read_parquet('STUDY/tables/notes/*.parquet') l
    on l.solo_id = p.solo_id and l.note_index = p.last_note_index
  cross join (select unnest([1, 2, 3, 4]) as beat) b
  where s.role = 'corpus' and s.metre = '4/4'
  group by all
)
group by all
order by beat;

-- What do phrases land on?
select chord_degree, count(*) as landings,
       round(count(*) / sum(count(*)) over (), 3) as share
from read_parquet('STUDY/tables/landings/*.parquet')
where role = 'corpus' and landing_kind = 'phrase-end' and chord_degree is not null
group by all
order by landings desc, chord_degree;

-- What do phrases end on over the V7 of a ii-V-I in major?
select end_degree, count(*) as phrases,
       round(count(*) / sum(count(*)) over (), 3) as share
from read_parquet('STUDY/tables/phrase_contexts/*.parquet')
where role = 'corpus' and kind = 'ii-V-I' and mode = 'major' and end_place = 'V'
  and end_degree is not null
group by all
order by phrases desc, end_degree;

-- How long are the phrases over each harmonic context, in bars? Any statistic can stand here.
select c.kind, c.mode, count(*) as phrases, round(median(v.value), 2) as median
from (select distinct solo_id, phrase_index, kind, mode
      from read_parquet('STUDY/tables/phrase_contexts/*.parquet')
      where role = 'corpus' and is_over) c
join read_parquet('STUDY/tables/phrase_statistics/*.parquet') v using (solo_id, phrase_index)
where v.statistic = 'phrase_length_bars' and v.value is not null
group by all
order by all;

-- How often do phrases end on the chord's own third, by style and decade? 'year' is of the metadata.
select s.style, s.year::integer // 10 * 10 as decade, count(*) as phrases,
       round(avg((l.core_chord_tone and l.chord_degree in ('3', 'b3'))::int), 3) as on_the_third
from read_parquet('STUDY/tables/landings/*.parquet') l
join read_parquet('STUDY/tables/solos/*.parquet') s using (solo_id)
where s.role = 'corpus' and list_contains(l.landing_kinds, 'phrase-end')
  and l.chord_degree is not null
group by all
order by all;

-- Do first and last choruses differ? Phrases of solos of two choruses or more.
select case p.first_chorus when 1 then 'first' else 'last' end as chorus,
       count(distinct solo_id) as solos, count(*) as phrases,
       round(median(p.length_bars), 2) as median_bars,
       round(median(p.highest_midi_concert), 1) as median_highest
from read_parquet('STUDY/tables/phrases/*.parquet') p
join (select solo_id, max(chorus) as last_chorus
      from read_parquet('STUDY/tables/bars/*.parquet') group by all) c using (solo_id)
where p.role = 'corpus' and c.last_chorus > 1 and p.first_chorus in (1, c.last_chorus)
group by all
order by all;

-- Where in a chorus of twelve bars do phrases start?
select p.first_bar_in_chorus as bar, count(*) as phrases
from read_parquet('STUDY/tables/phrases/*.parquet') p
join (select solo_id, max(bar_in_chorus) as bars
      from read_parquet('STUDY/tables/bars/*.parquet') group by all) c using (solo_id)
where p.role = 'corpus' and c.bars = 12 and p.first_bar_in_chorus is not null
group by all
order by all;

-- How often does each player reach a landing from a chromatic neighbour?
select s.performer, count(*) as landings, round(avg((l.approach = 'chromatic')::int), 3) as chromatic
from read_parquet('STUDY/tables/landings/*.parquet') l
join read_parquet('STUDY/tables/solos/*.parquet') s using (solo_id)
where s.role = 'corpus' and l.approach <> 'none'
group by all
order by chromatic desc, s.performer;

-- How does the density of a line go with its tempo?
select (floor(s.tempo_qpm / 40) * 40)::integer as tempo_from, count(*) as solos,
       round(median(v.value), 2) as median_notes_per_bar
from read_parquet('STUDY/tables/solo_statistics/*.parquet') v
join read_parquet('STUDY/tables/solos/*.parquet') s using (solo_id)
where s.role = 'corpus' and v.statistic = 'notes_per_bar' and s.tempo_qpm is not null
group by all
order by all;

-- Which landings lie on core chord tones, by kind?
select landing_kind, count(core_chord_tone) as with_verdict,
       round(avg(core_chord_tone::int), 3) as share
from read_parquet('STUDY/tables/landings/*.parquet')
where role = 'corpus'
group by all
order by landing_kind;

-- Which note values carry the line, by style?
select s.style, v.statistic, round(avg(v.value), 3) as mean_share, count(v.value) as solos
from read_parquet('STUDY/tables/solo_statistics/*.parquet') v
join read_parquet('STUDY/tables/solos/*.parquet') s using (solo_id)
where s.role = 'corpus' and v.statistic like 'value_share_%'
group by all
having avg(v.value) >= 0.01
order by s.style, mean_share desc, v.statistic;

-- What is usual for one statistic, by group?
select group_by, group_value, n, players, p25, p50, p75
from read_parquet('STUDY/tables/norms/*.parquet')
where statistic = 'notes_per_bar'
order by all;

-- Where does a student stand apart, over all solos?
select student, place, statistic, round(value, 3) as value, verdict,
       round(interval_low, 3) as usual_from, round(interval_high, 3) as usual_to
from read_parquet('STUDY/tables/departures/*.parquet')
where scope = 'pooled' and reference and place <= 5
order by student, place;

-- How does one statistic move over the dates?
select student, date, round(value, 3) as value, n, verdict
from read_parquet('STUDY/tables/departures/*.parquet')
where scope = 'solo' and group_by = 'all' and statistic = 'phrase_length_bars'
order by student, date;

-- In which statistics does a student move, and where to?
select student, statistic, dates, round(slope, 4) as slope_in_30_days, movement
from read_parquet('STUDY/tables/trends/*.parquet')
where movement not in ('too-few-dates', 'no-norm') and group_by = 'all'
order by student, statistic;

-- In what do two groups of the corpus differ most?
select group_by, first_group, second_group, statistic, round(effect, 2) as effect,
       round(effect_low, 2) as low, round(effect_high, 2) as high, p_adjusted, tests
from read_parquet('STUDY/tables/contrasts/*.parquet')
where effect is not null
order by abs(effect) desc, group_by, first_group, second_group, statistic
limit 20;

-- How far do the norms move under another phrase rule?
select rule, statistic, n, round(p50, 3) as median, round(median_shift, 3) as shift,
       round(median_shift_spreads, 2) as in_spreads, solos_changed
from read_parquet('STUDY/tables/sensitivity/*.parquet')
where group_by = 'all' and not rule_of_study
order by abs(median_shift_spreads) desc nulls last, rule, statistic
limit 20;

-- Which corpus solos are most like a student's?
select solo_id, place, neighbour_id, round(distance, 2) as distance, alike, drivers
from read_parquet('STUDY/tables/neighbours/*.parquet')
order by solo_id, place;

-- Which files were not read, and why?
select role, file, reason
from read_parquet('STUDY/tables/files/*.parquet')
where outcome = 'rejected'
order by all;

-- What in the files could not be taken as it stands?
select code, count(*) as times, count(distinct file) as files, min(found) as first_example
from read_parquet('STUDY/tables/problems/*.parquet')
group by all
order by times desc, code;

-- Where does a printed number come from? The solos behind one norm, with their files' checksums.
select n.p50 as median, n.n, v.solo_id, v.value, v.n as counted, f.sha256
from read_parquet('STUDY/tables/norms/*.parquet') n
join read_parquet('STUDY/tables/solo_statistics/*.parquet') v
  on v.statistic = n.statistic and v.role = 'corpus' and v.value is not null
join read_parquet('STUDY/tables/files/*.parquet') f using (solo_id)
where n.statistic = 'phrase_length_bars' and n.group_by = 'all'
order by v.value, v.solo_id;
