package phrasecensus.spark;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import phrasecensus.store.BucketResult;
import phrasecensus.tables.InputFile;

/** Files of one role that hold the same: the same bytes, or the same line in other bytes. */
final class SameSolos {
  private static final int GROUPS_TOLD = 5;

  private SameSolos() {}

  /**
   * What to tell of them, sentences; empty when there are none.
   *
   * @param files in order
   */
  static List<String> remarks(List<BucketResult.FileOutcome> files) {
    List<String> remarks = new ArrayList<>();
    Map<String, List<BucketResult.FileOutcome>> byRole = new TreeMap<>();
    for (BucketResult.FileOutcome file : files) {
      byRole.computeIfAbsent(file.role(), any -> new ArrayList<>()).add(file);
    }
    byRole.forEach(
        (role, ofRole) -> {
          List<List<String>> bytes = groups(ofRole, BucketResult.FileOutcome::sha256, null);
          tell(remarks, role, bytes, "the same as another one byte for byte");
          List<List<String>> lines =
              groups(ofRole, BucketResult.FileOutcome::line, BucketResult.FileOutcome::sha256);
          tell(remarks, role, lines, "the same solo as another one in other bytes");
        });
    return remarks;
  }

  /**
   * Paths of the files with the same key, groups of two or more.
   *
   * @param apart where given, files that also agree in this count once
   */
  private static List<List<String>> groups(
      List<BucketResult.FileOutcome> files,
      Function<BucketResult.FileOutcome, String> key,
      Function<BucketResult.FileOutcome, String> apart) {
    Map<String, BucketResult.FileOutcome> first = new HashMap<>();
    Map<String, Map<String, String>> more = new TreeMap<>();
    for (BucketResult.FileOutcome file : files) {
      String value = key.apply(file);
      if (value == null) {
        continue;
      }
      BucketResult.FileOutcome earlier = first.putIfAbsent(value, file);
      if (earlier != null) {
        Map<String, String> group = more.computeIfAbsent(earlier.file(), any -> new TreeMap<>());
        group.put(apart == null ? earlier.file() : apart.apply(earlier), earlier.file());
        group.putIfAbsent(apart == null ? file.file() : apart.apply(file), file.file());
      }
    }
    return more.values().stream()
        .filter(group -> group.size() > 1)
        .map(group -> group.values().stream().sorted().toList())
        .toList();
  }

  private static void tell(
      List<String> remarks, String role, List<List<String>> groups, String what) {
    if (groups.isEmpty()) {
      return;
    }
    StringBuilder text = new StringBuilder();
    text.append(role.equals(InputFile.CORPUS) ? "In the corpus " : "Among the students' files ");
    int files = groups.stream().mapToInt(List::size).sum();
    text.append(files).append(" files are ").append(what);
    text.append(role.equals(InputFile.CORPUS) ? " and count as often as they are there: " : ": ");
    for (int i = 0; i < Math.min(GROUPS_TOLD, groups.size()); i++) {
      text.append(i == 0 ? "" : "; ").append(String.join(" and ", shortened(groups.get(i))));
    }
    text.append(
        groups.size() > GROUPS_TOLD ? "; and " + (groups.size() - GROUPS_TOLD) + " more." : ".");
    remarks.add(text.toString());
  }

  private static List<String> shortened(List<String> files) {
    if (files.size() <= GROUPS_TOLD) {
      return files;
    }
    List<String> some = new ArrayList<>(files.subList(0, GROUPS_TOLD));
    some.add((files.size() - GROUPS_TOLD) + " others");
    return some;
  }
}
