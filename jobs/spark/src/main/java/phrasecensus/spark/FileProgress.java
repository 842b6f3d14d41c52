package phrasecensus.spark;

/** Is told how far reading has come. */
@FunctionalInterface
public interface FileProgress {
  /**
   * Called now and then while files are read, and once at the end.
   *
   * @param done files that are read or rejected
   * @param all files of the run
   */
  void at(long done, long all);
}
