/** What a study is expected to give, and how a run of it is held against that. Knows no engine. */
package phrasecensus.tables.verify;
