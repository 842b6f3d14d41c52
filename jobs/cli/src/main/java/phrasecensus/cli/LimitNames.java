package phrasecensus.cli;

import java.util.Iterator;
import java.util.stream.Stream;
import phrasecensus.readers.Limit;

/** The names of the limits with their units and defaults, for help texts. */
final class LimitNames implements Iterable<String> {
  @Override
  public Iterator<String> iterator() {
    return Stream.of(Limit.values())
        .map(limit -> limit.key() + " (" + limit.defaultValue() + " " + limit.unit() + ")")
        .iterator();
  }
}
