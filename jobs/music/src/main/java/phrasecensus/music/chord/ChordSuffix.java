package phrasecensus.music.chord;

import static phrasecensus.music.chord.ChordAlteration.Type.ADD;
import static phrasecensus.music.chord.ChordAlteration.Type.ALTER;
import static phrasecensus.music.chord.ChordAlteration.Type.SUBTRACT;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What stands after the root in a chord symbol as musicians write it, as in {@code mi7}, {@code
 * 7#9b13}, {@code -7b5}, {@code 6/9} or {@code 13sus4} (common practice, no source). A quality, a
 * number, then changes of degrees; what cannot be read to its end means nothing, nothing is
 * guessed.
 *
 * @param kind the kind of the standard
 * @param alterations what must be done to it
 */
public record ChordSuffix(ChordKind kind, List<ChordAlteration> alterations) {
  private static final Pattern QUALITY =
      Pattern.compile(
          "(?<minormajor>(?:-|m|(?i:min|mi))/?(?:M|\\^|(?i:maj|ma|j))(?![a-z]))"
              + "|(?<major>(?i:major|maj|ma(?![a-z])|j(?=[0-9]|$))|M(?![iI])|\\^)"
              + "|(?<diminished>(?i:dim)|°|o(?!mit))"
              + "|(?<half>ø|Ø|(?i:half-?dim))"
              + "|(?<minor>-|(?i:minor|min|mi(?![a-z]))|m(?![a-z&&[^a]]|a[^d]))"
              + "|(?<augmented>\\+|(?i:aug))"
              + "|(?<dominant>(?i:dom)(?=[0-9]))");
  private static final Pattern NUMBER = Pattern.compile("6/9|69|13|11|9|7|6|5|4");
  private static final Pattern CHANGE =
      Pattern.compile(
          "(?<sus>sus(?:4|2(?!4)|24|42)?)"
              + "|(?<alt>alt(?:ered)?)"
              + "|(?:no|omit)(?<without>[0-9]{1,2})(?:rd|th)?"
              + "|(?<seventh>(?:M|\\^|(?i:maj|ma|j))7)"
              + "|(?<augmented>\\+(?![0-9])|aug(?![0-9]))"
              + "|(?<add>add)?(?<sign>bb|[b#+-])?(?<degree>13|11|10|9|7|6|5|4|2)");
  private static final Pattern ENDS_OF_CHANGES = Pattern.compile("[\\s,()\\[\\]]+");

  public ChordSuffix {
    alterations = List.copyOf(alterations);
  }

  /**
   * Reads a suffix; the empty one is the major triad.
   *
   * @return empty when it is not plain what it means
   */
  public static Optional<ChordSuffix> read(String written) {
    return new Reading(plain(written)).suffix();
  }

  private static String plain(String written) {
    return written
        .strip()
        .replace('−', '-')
        .replace('–', '-')
        .replace('♭', 'b')
        .replace('♯', '#')
        .replace('º', '°')
        .replaceAll("[Δ△∆]", "^")
        .replaceFirst("^\\(([^()]*)\\)$", "$1");
  }

  private enum Quality {
    NONE,
    MAJOR,
    MINOR,
    MINOR_MAJOR,
    DIMINISHED,
    HALF_DIMINISHED,
    AUGMENTED
  }

  /** One suffix on its way from left to right. */
  private static final class Reading {
    private final String text;
    private int at;
    private Quality quality = Quality.NONE;
    private boolean triangle;
    private int number;
    private boolean sixNine;
    private int suspended;
    private boolean altered;
    private boolean majorSeventh;
    private boolean raisedFifth;
    private final List<ChordAlteration> changes = new ArrayList<>();

    Reading(String text) {
      this.text = text;
    }

    Optional<ChordSuffix> suffix() {
      readQuality();
      skipGaps();
      readNumber();
      while (at < text.length()) {
        int before = at;
        skipGaps();
        if (at < text.length() && !readChange()) {
          return Optional.empty();
        }
        if (at == before) {
          return Optional.empty();
        }
      }
      return meaning();
    }

    private void skipGaps() {
      Matcher gap = ENDS_OF_CHANGES.matcher(text).region(at, text.length());
      if (gap.lookingAt()) {
        at = gap.end();
      }
    }

    private void readQuality() {
      Matcher found = QUALITY.matcher(text).region(at, text.length());
      found.useTransparentBounds(true);
      if (!found.lookingAt()) {
        return;
      }
      at = found.end();
      if (found.group("minormajor") != null) {
        quality = Quality.MINOR_MAJOR;
      } else if (found.group("major") != null) {
        quality = Quality.MAJOR;
        triangle = found.group().equals("^") || found.group().equalsIgnoreCase("j");
      } else if (found.group("minor") != null) {
        quality = Quality.MINOR;
      } else if (found.group("diminished") != null) {
        quality = Quality.DIMINISHED;
      } else if (found.group("half") != null) {
        quality = Quality.HALF_DIMINISHED;
      } else if (found.group("augmented") != null) {
        quality = Quality.AUGMENTED;
      }
    }

    private void readNumber() {
      Matcher found = NUMBER.matcher(text).region(at, text.length());
      if (!found.lookingAt()) {
        return;
      }
      at = found.end();
      sixNine = found.group().equals("6/9") || found.group().equals("69");
      number = sixNine ? 6 : Integer.parseInt(found.group());
    }

    private boolean readChange() {
      Matcher found = CHANGE.matcher(text).region(at, text.length());
      if (!found.lookingAt()) {
        return false;
      }
      at = found.end();
      if (found.group("sus") != null) {
        if (suspended != 0) {
          return false;
        }
        String which = found.group("sus").substring(3);
        suspended = which.equals("2") ? 2 : 4;
        if (which.length() == 2) {
          changes.add(new ChordAlteration(ADD, 9, 0));
        }
      } else if (found.group("alt") != null) {
        altered = true;
      } else if (found.group("without") != null) {
        int degree = Integer.parseInt(found.group("without"));
        if (degree < 1 || degree > 13) {
          return false;
        }
        changes.add(new ChordAlteration(SUBTRACT, degree, 0));
      } else if (found.group("seventh") != null) {
        majorSeventh = true;
      } else if (found.group("augmented") != null) {
        raisedFifth = true;
      } else {
        return readDegree(found);
      }
      return true;
    }

    private boolean readDegree(Matcher found) {
      int degree = Integer.parseInt(found.group("degree"));
      String sign = found.group("sign") == null ? "" : found.group("sign");
      int alter =
          switch (sign) {
            case "bb" -> -2;
            case "b", "-" -> -1;
            case "#", "+" -> 1;
            default -> 0;
          };
      boolean unclear = number == 0 && degree != 5 && (sign.equals("-") || sign.equals("+"));
      if (unclear) {
        return false;
      }
      if (degree == 10) {
        // The tenth is the third again: a minor one above a major chord is the raised ninth.
        if (alter != -1) {
          return false;
        }
        changes.add(new ChordAlteration(ADD, 9, 1));
      } else if (degree == 5) {
        if (alter == 0) {
          return false;
        }
        changes.add(new ChordAlteration(ALTER, 5, alter));
      } else if (alter == 0 && found.group("add") == null && degree < 9 && degree != 6) {
        return false;
      } else {
        changes.add(new ChordAlteration(ADD, degree == 2 ? 9 : degree, alter));
      }
      return true;
    }

    private Optional<ChordSuffix> meaning() {
      if (altered) {
        return quality == Quality.NONE
                && (number == 0 || number == 7)
                && suspended == 0
                && !majorSeventh
                && changes.isEmpty()
            ? Optional.of(ALTERED)
            : Optional.empty();
      }
      if (number == 5 && quality == Quality.AUGMENTED) {
        number = 0;
      }
      if (number == 5 || number == 4) {
        boolean alone = quality == Quality.NONE && suspended == 0 && changes.isEmpty();
        return alone && !majorSeventh && !raisedFifth
            ? kind(number == 5 ? ChordKind.POWER : ChordKind.SUSPENDED_FOURTH)
            : Optional.empty();
      }
      if (raisedFifth) {
        if (quality != Quality.NONE && quality != Quality.MAJOR) {
          return Optional.empty();
        }
        changes.add(0, new ChordAlteration(ALTER, 5, 1));
      }
      if (sixNine) {
        changes.add(0, new ChordAlteration(ADD, 9, 0));
      }
      if (suspended != 0) {
        return suspendedChord();
      }
      if (majorSeventh && quality == Quality.MINOR && (number == 0 || number >= 9)) {
        quality = Quality.MINOR_MAJOR;
        majorSeventh = false;
      }
      return switch (quality) {
        case NONE -> majorSeventh ? plainWithMajorSeventh() : plainChord();
        case MAJOR -> majorSeventh ? Optional.empty() : majorChord();
        case MINOR -> majorSeventh ? Optional.empty() : minorChord();
        case MINOR_MAJOR -> majorSeventh ? Optional.empty() : minorMajorChord();
        case DIMINISHED -> diminishedChord();
        case HALF_DIMINISHED -> halfDiminishedChord();
        case AUGMENTED -> augmentedChord();
      };
    }

    private Optional<ChordSuffix> kind(ChordKind kind) {
      return Optional.of(new ChordSuffix(kind, changes));
    }

    private Optional<ChordSuffix> kindWith(ChordKind kind, int degree, int alter) {
      changes.add(0, new ChordAlteration(ADD, degree, alter));
      return kind(kind);
    }

    private Optional<ChordSuffix> plainChord() {
      return switch (number) {
        case 0 -> kind(ChordKind.MAJOR);
        case 6 -> kind(ChordKind.MAJOR_SIXTH);
        case 7 -> kind(ChordKind.DOMINANT);
        case 9 -> kind(ChordKind.DOMINANT_NINTH);
        case 11 -> kind(ChordKind.DOMINANT_11TH);
        default -> kind(ChordKind.DOMINANT_13TH);
      };
    }

    private Optional<ChordSuffix> plainWithMajorSeventh() {
      return number == 0
          ? kind(ChordKind.MAJOR_SEVENTH)
          : number == 6 ? kindWith(ChordKind.MAJOR_SIXTH, 7, 1) : Optional.empty();
    }

    private Optional<ChordSuffix> majorChord() {
      return switch (number) {
        case 0 -> kind(triangle ? ChordKind.MAJOR_SEVENTH : ChordKind.MAJOR);
        case 6 -> kind(ChordKind.MAJOR_SIXTH);
        case 7 -> kind(ChordKind.MAJOR_SEVENTH);
        case 9 -> kind(ChordKind.MAJOR_NINTH);
        case 11 -> kind(ChordKind.MAJOR_11TH);
        default -> kind(ChordKind.MAJOR_13TH);
      };
    }

    private Optional<ChordSuffix> minorChord() {
      ChordAlteration flatFifth = new ChordAlteration(ALTER, 5, -1);
      if (number == 7 && changes.contains(flatFifth)) {
        changes.remove(flatFifth);
        return kind(ChordKind.HALF_DIMINISHED);
      }
      return switch (number) {
        case 0 -> kind(ChordKind.MINOR);
        case 6 -> kind(ChordKind.MINOR_SIXTH);
        case 7 -> kind(ChordKind.MINOR_SEVENTH);
        case 9 -> kind(ChordKind.MINOR_NINTH);
        case 11 -> kind(ChordKind.MINOR_11TH);
        default -> kind(ChordKind.MINOR_13TH);
      };
    }

    private Optional<ChordSuffix> minorMajorChord() {
      return switch (number) {
        case 0, 7 -> kind(ChordKind.MAJOR_MINOR);
        case 9 -> kindWith(ChordKind.MAJOR_MINOR, 9, 0);
        default -> Optional.empty();
      };
    }

    private Optional<ChordSuffix> diminishedChord() {
      if (majorSeventh) {
        return number == 0 ? kindWith(ChordKind.DIMINISHED, 7, 1) : Optional.empty();
      }
      return switch (number) {
        case 0 -> kind(ChordKind.DIMINISHED);
        case 7 -> kind(ChordKind.DIMINISHED_SEVENTH);
        case 9 -> kindWith(ChordKind.DIMINISHED_SEVENTH, 9, 0);
        default -> Optional.empty();
      };
    }

    private Optional<ChordSuffix> halfDiminishedChord() {
      return switch (number) {
        case 0, 7 -> majorSeventh ? Optional.empty() : kind(ChordKind.HALF_DIMINISHED);
        case 9 -> majorSeventh ? Optional.empty() : kindWith(ChordKind.HALF_DIMINISHED, 9, 0);
        case 11 -> {
          changes.add(0, new ChordAlteration(ADD, 9, 0));
          yield kindWith(ChordKind.HALF_DIMINISHED, 11, 0);
        }
        default -> Optional.empty();
      };
    }

    private Optional<ChordSuffix> augmentedChord() {
      if (majorSeventh) {
        changes.add(0, new ChordAlteration(ALTER, 5, 1));
        return number == 0 ? kind(ChordKind.MAJOR_SEVENTH) : Optional.empty();
      }
      return switch (number) {
        case 0 -> kind(ChordKind.AUGMENTED);
        case 7 -> kind(ChordKind.AUGMENTED_SEVENTH);
        case 9 -> kindWith(ChordKind.AUGMENTED_SEVENTH, 9, 0);
        default -> Optional.empty();
      };
    }

    private Optional<ChordSuffix> suspendedChord() {
      if (quality != Quality.NONE && quality != Quality.MAJOR || raisedFifth) {
        return Optional.empty();
      }
      ChordKind kind = suspended == 2 ? ChordKind.SUSPENDED_SECOND : ChordKind.SUSPENDED_FOURTH;
      List<ChordAlteration> extended = new ArrayList<>();
      if (number == 6) {
        extended.add(new ChordAlteration(ADD, 6, 0));
      } else if (number >= 7 || majorSeventh) {
        boolean major = quality == Quality.MAJOR || majorSeventh;
        extended.add(new ChordAlteration(ADD, 7, major ? 1 : 0));
        if (number >= 9) {
          extended.add(new ChordAlteration(ADD, 9, 0));
        }
        if (number == 13) {
          extended.add(new ChordAlteration(ADD, 13, 0));
        }
      }
      for (ChordAlteration change : changes) {
        // sus4 7, with the number behind
        if (!extended.contains(change)) {
          extended.add(change);
        }
      }
      return Optional.of(new ChordSuffix(kind, extended));
    }
  }

  /**
   * The altered dominant: root, third and seventh are sure, the fifth is flat or sharp and so is
   * the ninth. All four are written tensions; the natural fifth is not in it.
   */
  static final ChordSuffix ALTERED =
      new ChordSuffix(
          ChordKind.DOMINANT,
          List.of(
              new ChordAlteration(SUBTRACT, 5, 0),
              new ChordAlteration(ADD, 9, -1),
              new ChordAlteration(ADD, 9, 1),
              new ChordAlteration(ADD, 11, 1),
              new ChordAlteration(ADD, 13, -1)));
}
