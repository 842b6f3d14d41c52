package phrasecensus.tables;

/**
 * The data set that a corpus is, as its makers want it named. What is not known is empty.
 *
 * @param name of the data set
 * @param licence under which it may be used, by its usual name
 * @param citation how to cite it
 * @param address where it can be had
 */
public record DataSource(String name, String licence, String citation, String address) {
  /** Nothing is said about the data. */
  public static final DataSource NOT_STATED = new DataSource("", "", "", "");

  public DataSource {
    name = name == null ? "" : name;
    licence = licence == null ? "" : licence;
    citation = citation == null ? "" : citation;
    address = address == null ? "" : address;
  }
}
