/**
 * The corpus spread over Spark: the session, reading, norms and comparison as jobs, and the steps
 * of a study in order. The only package that imports Spark.
 */
package phrasecensus.spark;
