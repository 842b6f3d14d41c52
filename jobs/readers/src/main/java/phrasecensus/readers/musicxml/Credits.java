package phrasecensus.readers.musicxml;

import jakarta.xml.bind.JAXBElement;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.audiveris.proxymusic.Credit;
import org.audiveris.proxymusic.FormattedText;
import org.audiveris.proxymusic.LeftCenterRight;

/**
 * Title and composer as they stand on the first page, for scores that say them nowhere else.
 *
 * <p>A credit with a type says what it is (W3C MusicXML 4.0, {@code credit-type}). Among those of
 * the first page without one, the title is the largest, if one is larger than all others, else the
 * first in the middle; the composer stands on the right (common practice, no source).
 */
final class Credits {
  private record Words(String text, double size, boolean centred, boolean right) {}

  private static final int LONGEST_TEXT = 200;

  private String title = "";
  private String composer = "";
  private final List<Words> untyped = new ArrayList<>();

  void add(Credit credit) {
    List<String> types = new ArrayList<>();
    StringBuilder text = new StringBuilder();
    FormattedText first = null;
    for (JAXBElement<?> item : credit.getCreditTypeOrLinkOrBookmark()) {
      if (item.getValue() instanceof FormattedText words) {
        first = first == null ? words : first;
        text.append(text.isEmpty() ? "" : " ").append(PlainText.of(words.getValue(), LONGEST_TEXT));
      } else if (item.getValue() instanceof String type) {
        types.add(type.strip().toLowerCase(Locale.ROOT));
      }
    }
    String plain = PlainText.of(text.toString(), LONGEST_TEXT);
    boolean firstPage = credit.getPage() == null || credit.getPage().intValue() == 1;
    if (plain.isEmpty() || first == null) {
      return;
    }
    if (types.contains("title")) {
      title = title.isEmpty() ? plain : title;
    } else if (types.contains("composer")) {
      composer = composer.isEmpty() ? plain : composer;
    } else if (types.isEmpty() && firstPage) {
      LeftCenterRight place = first.getHalign() == null ? first.getJustify() : first.getHalign();
      untyped.add(
          new Words(
              plain,
              size(first.getFontSize()),
              place == LeftCenterRight.CENTER || first.getJustify() == LeftCenterRight.CENTER,
              place == LeftCenterRight.RIGHT || first.getJustify() == LeftCenterRight.RIGHT));
    }
  }

  private static double size(String fontSize) {
    if (fontSize == null || !fontSize.strip().matches("[0-9]{1,4}(\\.[0-9]{1,6})?")) {
      return 0;
    }
    return Double.parseDouble(fontSize.strip());
  }

  /** The title; empty for none. */
  String title() {
    if (!title.isEmpty()) {
      return title;
    }
    Words largest = largest();
    if (largest != null) {
      return largest.text();
    }
    return untyped.stream().filter(Words::centred).map(Words::text).findFirst().orElse("");
  }

  private Words largest() {
    Words largest = null;
    boolean alone = false;
    for (Words words : untyped) {
      if (largest == null || words.size() > largest.size()) {
        largest = words;
        alone = true;
      } else if (words.size() == largest.size()) {
        alone = false;
      }
    }
    boolean compared = untyped.size() > 1 || largest != null && largest.centred();
    return alone && compared && largest.size() > 0 ? largest : null;
  }

  /** The composer; empty for none. */
  String composer() {
    if (!composer.isEmpty()) {
      return composer;
    }
    String found = title();
    return untyped.stream()
        .filter(words -> words.right() && !words.text().equals(found))
        .map(Words::text)
        .findFirst()
        .orElse("");
  }
}
