package phrasecensus.report.view;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;

/**
 * What students, their pages and their solos are called. With pseudonyms nothing that a student or
 * a student's file is called reaches a page or a file name.
 */
final class Names {
  private static final int LONGEST_SLUG = 48;

  private final boolean pseudonyms;
  private final Numbers numbers;
  private final Map<String, String> students = new HashMap<>();
  private final Map<String, String> pages = new HashMap<>();
  private final Map<String, String> soloPages = new HashMap<>();
  private final Map<String, String> soloPlaces = new HashMap<>();

  Names(List<Student> all, boolean pseudonyms, Numbers numbers) {
    this.pseudonyms = pseudonyms;
    this.numbers = numbers;
    Set<String> taken = new HashSet<>();
    for (int i = 0; i < all.size(); i++) {
      Student student = all.get(i);
      String given = FileText.printable(student.name());
      String shown =
          pseudonyms
              ? Text.of("names.student", i + 1)
              : given.isEmpty() ? Text.of("names.student.none") : given;
      students.put(student.name(), shown);
      String slug = pseudonyms ? String.valueOf(i + 1) : slug(given);
      String unique = slug;
      for (int k = 2; taken.contains(unique) || clashes(unique, student, taken); k++) {
        unique = slug + "-" + k;
      }
      taken.add(unique);
      pages.put(student.name(), "student-" + unique + ".html");
      String stem = "student-" + unique + "-solo-";
      for (int k = 0; k < student.solos().size(); k++) {
        taken.add(unique + "-solo-" + (k + 1));
        soloPages.put(student.solos().get(k).facts().soloId(), stem + (k + 1) + ".html");
      }
      for (int k = 0; k < student.solos().size(); k++) {
        soloPlaces.put(
            student.solos().get(k).facts().soloId(),
            student.solos().size() == 1 ? shown : Text.of("names.place", shown, k + 1));
      }
    }
  }

  /** True when a solo of the student would have the page of another student. */
  private static boolean clashes(String slug, Student student, Set<String> taken) {
    for (int k = 1; k <= student.solos().size(); k++) {
      if (taken.contains(slug + "-solo-" + k)) {
        return true;
      }
    }
    return false;
  }

  /** Letters and digits of ASCII with hyphens between; {@code unnamed} when nothing is left. */
  static String slug(String name) {
    String plain =
        Normalizer.normalize(name, Normalizer.Form.NFD)
            .toLowerCase(Locale.ROOT)
            .replaceAll("\\p{M}+", "")
            .replaceAll("[^a-z0-9]+", "-")
            .replaceAll("^-+|-+$", "");
    if (plain.length() > LONGEST_SLUG) {
      plain = plain.substring(0, LONGEST_SLUG).replaceAll("-+$", "");
    }
    return plain.isEmpty() ? "unnamed" : plain;
  }

  String student(Student student) {
    return students.get(student.name());
  }

  String page(Student student) {
    return pages.get(student.name());
  }

  /** File name of the lesson sheet of a student. */
  String sheet(Student student) {
    return page(student).replaceFirst("^student-", "lesson-");
  }

  /** File name of the same sheet without links, to be mailed. */
  String mailed(Student student) {
    return page(student).replaceFirst("^student-", "mail-");
  }

  String page(Student student, int place) {
    return soloPages.get(student.solos().get(place).facts().soloId());
  }

  /** A solo in a heading. */
  String solo(Student student, int place) {
    SoloFacts facts = student.solos().get(place).facts();
    List<String> parts = new ArrayList<>();
    if (!pseudonyms && !facts.title().isBlank()) {
      parts.add(FileText.printable(facts.title()));
    } else {
      parts.add(Text.of("names.solo", place + 1));
    }
    if (facts.date() != null) {
      parts.add(numbers.date(facts.date()));
    }
    return String.join(", ", parts);
  }

  /** A solo beside a mark, short: its day, else its place among the student's solos. */
  List<String> labels(Student student) {
    List<String> labels = new ArrayList<>();
    Map<String, Integer> seen = new HashMap<>();
    for (int i = 0; i < student.solos().size(); i++) {
      StudentSolo solo = student.solos().get(i);
      String label =
          solo.facts().date() == null
              ? Text.of("names.solo.short", i + 1)
              : numbers.date(solo.facts().date());
      int count = seen.merge(label, 1, Integer::sum);
      labels.add(count == 1 ? label : label + " (" + count + ")");
    }
    return labels;
  }

  /** A file in a list of files or problems. */
  String file(String role, String file, String soloId) {
    if (pseudonyms && !"corpus".equals(role)) {
      return soloId == null
          ? Text.of("names.file")
          : soloPlaces.getOrDefault(soloId, Text.of("names.file"));
    }
    return FileText.printable(file);
  }

  /**
   * A corpus file that is a student's too: with pseudonyms its path could give the student away.
   */
  String corpusTwin(String file) {
    return pseudonyms ? Text.of("names.file.corpus") : FileText.printable(file);
  }

  /** What a file itself says in a problem: may hold a name, so it stays out with pseudonyms. */
  String quoted(String role, String text) {
    return pseudonyms && !"corpus".equals(role)
        ? Text.of("names.left-out")
        : FileText.printable(text);
  }
}
