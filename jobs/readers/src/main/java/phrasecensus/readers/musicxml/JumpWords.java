package phrasecensus.readers.musicxml;

import java.util.regex.Pattern;

/** The usual words for jumps, in lower case (common practice, no source). */
final class JumpWords {
  private static final Pattern DACAPO = Pattern.compile("(d\\. ?c\\.?|d\\.? ?c\\.|da capo)\\b?.*");
  private static final Pattern DALSEGNO =
      Pattern.compile("(d\\. ?s\\.?|d\\.? ?s\\.|dal segno)\\b?.*");
  private static final Pattern TO_CODA = Pattern.compile("(to coda|al coda)\\b.*");
  private static final Pattern FINE = Pattern.compile("fine\\.?");

  private JumpWords() {}

  static boolean isJump(String words) {
    return isDacapo(words) || isDalsegno(words) || isToCoda(words) || isFine(words);
  }

  static boolean isDacapo(String words) {
    return DACAPO.matcher(words).matches();
  }

  static boolean isDalsegno(String words) {
    return DALSEGNO.matcher(words).matches();
  }

  static boolean isToCoda(String words) {
    return TO_CODA.matcher(words).matches();
  }

  static boolean isFine(String words) {
    return FINE.matcher(words).matches();
  }
}
