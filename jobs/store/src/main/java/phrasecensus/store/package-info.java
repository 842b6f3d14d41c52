/**
 * The study folder, on a disk or in an object store: listing and opening scores, the lock, the
 * commit that changes all tables at once, what an earlier run left. Knows no Spark.
 */
package phrasecensus.store;
