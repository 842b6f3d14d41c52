package phrasecensus.report.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The school grade at which running sentences can be read: .39 words a sentence + 11.8 syllables a
 * word − 15.59 (J. P. Kincaid, R. P. Fishburne, R. L. Rogers and B. S. Chissom, 1975, Derivation of
 * new readability formulas for Navy enlisted personnel, Research Branch Report 8-75). Syllables are
 * counted by spelling; a number counts as the words in which it is read.
 */
public final class ReadingGrade {
  private static final Pattern WORD = Pattern.compile("[\\p{L}\\p{N}]+(?:['\u2019][\\p{L}]+)*");
  private static final Pattern NOTE_NAME = Pattern.compile("[A-G][\u266f\u266d]?");
  private static final Pattern VOWELS = Pattern.compile("[aeiouy]+");
  private static final int[] SYLLABLES_OF_DIGITS = {2, 1, 1, 1, 1, 1, 1, 2, 1, 1};

  private ReadingGrade() {}

  /** The grade of some sentences; 0 without any word. */
  public static double of(String text) {
    int sentences = sentences(text).size();
    List<String> words = words(text);
    if (words.isEmpty()) {
      return 0;
    }
    int syllables = words.stream().mapToInt(ReadingGrade::syllables).sum();
    return .39 * words.size() / sentences + 11.8 * syllables / words.size() - 15.59;
  }

  /** The words, single letters that name notes left out. */
  public static List<String> words(String text) {
    List<String> words = new ArrayList<>();
    // A note's sign belongs to its name.
    Matcher word = WORD.matcher(text.replaceAll("\\b[A-G][\u266f\u266d]", "G"));
    while (word.find()) {
      boolean article = word.group().equals("A") && text.contains("A ");
      if (article || !NOTE_NAME.matcher(word.group()).matches()) {
        words.add(word.group());
      }
    }
    return words;
  }

  /** The sentences that hold a word. */
  static List<String> sentences(String text) {
    List<String> sentences = new ArrayList<>();
    for (String sentence : text.split("(?<=[.!?:])\\s+|\\n+")) {
      if (WORD.matcher(sentence).find()) {
        sentences.add(sentence.strip());
      }
    }
    return sentences;
  }

  /** The syllables of a word, by its spelling; of a number as it is read, roughly. */
  static int syllables(String word) {
    if (word.chars().anyMatch(Character::isDigit)) {
      return word.chars()
          .filter(Character::isDigit)
          .map(digit -> SYLLABLES_OF_DIGITS[digit - '0'])
          .sum();
    }
    String plain = word.toLowerCase(Locale.ROOT).replaceAll("['\u2019].*$", "");
    int count = 0;
    Matcher vowels = VOWELS.matcher(plain);
    while (vowels.find()) {
      count++;
      String group = vowels.group();
      // Two syllables side by side, as in idea, piano, quiet, music-ian.
      if (group.matches("ia|io|iu|eo|ie|iou|uie|ya|uou")
          && !plain.matches(".*(tion|sion|cian|lian|tial|cial|ies|ied|ief|ield|iend|iece|people).*")
          && !plain.matches(".*(die|lie|tie|pie)[sd]?$")) {
        count++;
      }
    }
    count += plain.matches(".*(idea|area)s?") ? 1 : 0;
    boolean silent =
        plain.matches(".*[^aeiouy]e") && !plain.matches(".*[^aeiouy]le") && count > 1
            || plain.matches(".*[^aeioutdy]ed") && count > 1
            || plain.matches(".*[^aeiouysxzc]es")
                && !plain.matches(".*(ch|sh|[^aeiouy]l|g)es")
                && count > 1;
    return Math.max(1, silent ? count - 1 : count);
  }
}
