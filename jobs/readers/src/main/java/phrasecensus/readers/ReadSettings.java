package phrasecensus.readers;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/**
 * How files are read. Immutable.
 *
 * @param asPlayed true to unfold repeats, endings and jumps; false for each bar once, as written
 * @param preferredPart id or name of the part to take; empty to choose it by rule. A file without
 *     such a part is read by the rule, with a problem
 * @param keepSlashNoteheads true to read notes with slash noteheads as notes of the line; false to
 *     leave them out, as a place where anything may be played
 * @param limits bounds on a file; every {@link Limit} has a positive value
 */
public record ReadSettings(
    boolean asPlayed,
    Optional<String> preferredPart,
    boolean keepSlashNoteheads,
    Map<Limit, Long> limits) {
  private static final ReadSettings DEFAULTS =
      new ReadSettings(false, Optional.empty(), false, Map.of());

  /**
   * Completes {@code limits} with the defaults.
   *
   * @throws IllegalArgumentException if a limit is not positive
   */
  public ReadSettings {
    Map<Limit, Long> complete = new EnumMap<>(Limit.class);
    for (Limit limit : Limit.values()) {
      long value = limits.getOrDefault(limit, limit.defaultValue());
      if (value <= 0) {
        throw new IllegalArgumentException("Invalid limit " + limit.key() + ": " + value);
      }
      complete.put(limit, value);
    }
    limits = Map.copyOf(complete);
  }

  /** As written, part by rule, no slash noteheads, every limit at its default. */
  public static ReadSettings defaults() {
    return DEFAULTS;
  }

  /** The bound on a quantity, in the limit's unit. */
  public long limit(Limit limit) {
    return limits.get(limit);
  }

  /** The same settings with one limit changed. */
  public ReadSettings withLimit(Limit limit, long value) {
    Map<Limit, Long> changed = new EnumMap<>(limits);
    changed.put(limit, value);
    return new ReadSettings(asPlayed, preferredPart, keepSlashNoteheads, changed);
  }

  /** The same settings with some limits changed. */
  public ReadSettings withLimits(Map<Limit, Long> values) {
    Map<Limit, Long> changed = new EnumMap<>(limits);
    changed.putAll(values);
    return new ReadSettings(asPlayed, preferredPart, keepSlashNoteheads, changed);
  }

  /** The limits that are not at their defaults, in the order of {@link Limit}. */
  public Map<Limit, Long> changedLimits() {
    Map<Limit, Long> changed = new EnumMap<>(limits);
    changed.entrySet().removeIf(entry -> entry.getValue() == entry.getKey().defaultValue());
    return Collections.unmodifiableMap(changed);
  }

  /** The same settings with repeats and jumps unfolded or not. */
  public ReadSettings withAsPlayed(boolean unfolded) {
    return new ReadSettings(unfolded, preferredPart, keepSlashNoteheads, limits);
  }

  /** The same settings with slash noteheads read as notes or left out. */
  public ReadSettings withSlashNoteheadsKept(boolean kept) {
    return new ReadSettings(asPlayed, preferredPart, kept, limits);
  }

  /** The same settings with a part named by id or name. */
  public ReadSettings withPreferredPart(String idOrName) {
    return new ReadSettings(asPlayed, Optional.of(idOrName), keepSlashNoteheads, limits);
  }
}
