package phrasecensus.tables;

import java.util.Collection;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * A column of texts or of words, by which rows can be asked for.
 *
 * @param <T> its values
 */
public final class TextColumn<T> extends TypedColumn<T> {
  private final Function<T, String> text;

  TextColumn(String table, String name, Function<String, T> value, Function<T, String> text) {
    super(table, name, found -> value.apply((String) found));
    this.text = text;
  }

  /** Rows with a value. */
  public Among is(T value) {
    return new Among(name(), Set.of(text.apply(value)), true);
  }

  /** Rows with one of several values; with none of them, no row at all. */
  public Among isOneOf(Collection<T> values) {
    return new Among(
        name(), values.stream().map(text).collect(Collectors.toUnmodifiableSet()), false);
  }
}
