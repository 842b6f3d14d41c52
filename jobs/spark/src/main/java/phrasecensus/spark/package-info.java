/**
 * The corpus spread over Spark: reading, norms and comparison as jobs, and the study folder that
 * they write. The only package that imports Spark.
 */
package phrasecensus.spark;
