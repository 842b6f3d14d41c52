package phrasecensus.spark;

import org.apache.hadoop.conf.Configuration;
import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.sql.SparkSession;

/**
 * The Spark session of a command. Local mode with all cores unless {@code spark-submit} or a system
 * property names another master; nothing listens beyond loopback in local mode, and the web
 * interface is off unless asked for.
 */
public final class StudySession implements AutoCloseable {
  private final SparkSession spark;

  private StudySession(SparkSession spark) {
    this.spark = spark;
  }

  /** Opens a session with the settings that the system properties and {@code spark-submit} give. */
  public static StudySession open() {
    SparkConf configuration = new SparkConf(true);
    configuration.setIfMissing("spark.master", "local[*]");
    configuration.setIfMissing("spark.app.name", "phrase-census");
    configuration.setIfMissing("spark.ui.enabled", "false");
    configuration.setIfMissing("spark.ui.showConsoleProgress", "false");
    if (configuration.get("spark.master").startsWith("local")) {
      configuration.setIfMissing("spark.driver.bindAddress", "127.0.0.1");
      configuration.setIfMissing("spark.driver.host", "127.0.0.1");
    }
    configuration.setIfMissing("spark.sql.adaptive.enabled", "false");
    configuration.setIfMissing("spark.sql.catalogImplementation", "in-memory");
    configuration.setIfMissing("spark.sql.session.timeZone", "UTC");
    return new StudySession(SparkSession.builder().config(configuration).getOrCreate());
  }

  SparkSession spark() {
    return spark;
  }

  JavaSparkContext context() {
    return JavaSparkContext.fromSparkContext(spark.sparkContext());
  }

  /** Hadoop's settings, for the file systems. */
  public Configuration configuration() {
    return spark.sparkContext().hadoopConfiguration();
  }

  /** Runs the smallest SQL job there is: what everything else is measured against. */
  public long trivialJob() {
    return spark.range(1000).count();
  }

  /** Version of Spark. */
  public String version() {
    return spark.version();
  }

  @Override
  public void close() {
    spark.stop();
  }
}
