/**
 * Table rows in Parquet files, written and read through Parquet's own library; no Spark session
 * needed.
 */
package phrasecensus.store.parquet;
