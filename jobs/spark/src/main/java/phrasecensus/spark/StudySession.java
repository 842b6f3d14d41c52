package phrasecensus.spark;

import java.util.concurrent.CountDownLatch;
import org.apache.hadoop.conf.Configuration;
import org.apache.spark.SparkConf;
import org.apache.spark.SparkContext;
import org.apache.spark.SparkIllegalArgumentException;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.sql.SparkSession;
import phrasecensus.store.JavaLocalFileSystem;
import phrasecensus.store.SystemUser;
import phrasecensus.tables.InputException;

/**
 * The Spark session of a command. Local mode with all cores unless {@code spark-submit} or a system
 * property names another master; nothing listens beyond loopback in local mode, and the web
 * interface is off unless asked for. A context alone: Spark's SQL would take longer to start than
 * most studies take to read.
 */
public final class StudySession implements AutoCloseable {
  /** What a study in local mode has at once, and some more. */
  private static final int THREADS = 64;

  private final JavaSparkContext context;

  private StudySession(JavaSparkContext context) {
    this.context = context;
  }

  /**
   * Opens a session with the settings that the system properties and {@code spark-submit} give.
   *
   * @throws InputException if Java was given less memory than Spark asks for
   * @throws OutOfMemoryError if the system allows too few threads
   */
  public static StudySession open() {
    SystemUser.ensureNamed();
    tryThreads();
    SparkConf configuration = new SparkConf(true);
    configuration.setIfMissing("spark.master", "local[*]");
    configuration.setIfMissing("spark.app.name", "phrase-census");
    configuration.setIfMissing("spark.ui.enabled", "false");
    configuration.setIfMissing("spark.ui.showConsoleProgress", "false");
    if (configuration.get("spark.master").startsWith("local")) {
      configuration.setIfMissing("spark.driver.bindAddress", "127.0.0.1");
      configuration.setIfMissing("spark.driver.host", "127.0.0.1");
      configuration.setIfMissing("spark.hadoop.fs.file.impl", JavaLocalFileSystem.class.getName());
    }
    // A task that runs out of memory must not end the process without a word; it fails, and is
    // told.
    configuration.setIfMissing("spark.executor.killOnFatalError.depth", "0");
    configuration.setIfMissing("spark.sql.catalogImplementation", "in-memory");
    // Sources of metrics that somebody would have to ask for; they start Java's management agent.
    configuration.setIfMissing("spark.metrics.executorMetricsSource.enabled", "false");
    configuration.setIfMissing("spark.metrics.staticSources.enabled", "false");
    SparkContext context = context(configuration);
    if (!context.conf().getBoolean("spark.ui.enabled", true)) {
      // Only the web interface draws how a job is nested; each step would be written as JSON.
      context.setLocalProperty("spark.rdd.scope.noOverride", "true");
    }
    return new StudySession(JavaSparkContext.fromSparkContext(context));
  }

  /**
   * Where threads run out in the middle, Spark waits for ever: so as many as it needs are tried.
   */
  private static void tryThreads() {
    CountDownLatch enough = new CountDownLatch(1);
    try {
      for (int i = 0; i < THREADS; i++) {
        Thread thread =
            new Thread(
                () -> {
                  try {
                    enough.await();
                  } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                  }
                },
                "probe");
        thread.setDaemon(true);
        thread.start();
      }
    } finally {
      enough.countDown();
    }
  }

  private static SparkContext context(SparkConf configuration) {
    try {
      return SparkContext.getOrCreate(configuration);
    } catch (SparkIllegalArgumentException e) {
      if ("INVALID_DRIVER_MEMORY".equals(e.getCondition())) {
        throw new InputException(
            "Cannot start: Java may use "
                + (Runtime.getRuntime().maxMemory() >> 20)
                + " MB of memory, and Spark asks for 450. Start with JAVA_OPTS=-Xmx512m or more.",
            e);
      }
      throw e;
    }
  }

  JavaSparkContext context() {
    return context;
  }

  /** Hadoop's settings, for the file systems. */
  public Configuration configuration() {
    return context.hadoopConfiguration();
  }

  /** Runs the smallest SQL job there is: what everything else is measured against. */
  public long trivialJob() {
    return SparkSession.builder().sparkContext(context.sc()).getOrCreate().range(1000).count();
  }

  /** Version of Spark. */
  public String version() {
    return context.version();
  }

  @Override
  public void close() {
    context.stop();
  }
}
