package phrasecensus.tables;

import java.text.Normalizer;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/**
 * Which score a cell means that names one. A name that is there just so is meant; else the only one
 * that differs in nothing but what people do not see: how accented letters are composed (Unicode
 * Standard Annex 15), spaces at the ends, and backslashes for slashes.
 */
final class MeantFiles {
  private final Set<String> exact = new HashSet<>();
  private final Map<String, String> alike = new HashMap<>();

  MeantFiles(Collection<String> files) {
    for (String file : files) {
      exact.add(file);
      exact.add(Metadata.withoutExtension(file));
    }
    for (String file : files) {
      put(alike(file), file);
      String without = Metadata.withoutExtension(file.strip());
      if (!without.equals(file)) {
        put(alike(without), file);
      }
    }
  }

  /** Two files that look the same are meant by neither. */
  private void put(String key, String file) {
    String other = alike.put(key, file);
    if (other != null && !other.equals(file)) {
      alike.put(key, "");
    }
  }

  /** The score's path; what stands in the cell, with slashes, when no score is meant. */
  String by(String cell) {
    if (exact.contains(cell)) {
      return cell;
    }
    String plain = cell.replace('\\', '/');
    if (exact.contains(plain)) {
      return plain;
    }
    String meant = alike.getOrDefault(alike(cell), "");
    return meant.isEmpty() ? plain : meant;
  }

  private static String alike(String name) {
    return Normalizer.normalize(name.replace('\\', '/'), Normalizer.Form.NFC).strip();
  }
}
