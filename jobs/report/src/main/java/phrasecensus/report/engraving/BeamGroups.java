package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.engraving.StaffBar.Item;

/**
 * Which notes of a bar share a beam: those of a beat, of half a bar where it holds nothing but
 * eighths, of a tuplet. Metres of five, seven and more eighths part in threes and twos, as written
 * where the signature says so. Common practice, no source.
 */
final class BeamGroups {
  private static final Pattern SUM = Pattern.compile("[0-9]{1,2}(\\+[0-9]{1,2})+/[0-9]{1,2}");
  private static final Pattern PLAIN = Pattern.compile("[0-9]{1,2}/[0-9]{1,2}");

  private BeamGroups() {}

  /** All items in groups; what has no beam stands alone. */
  static List<List<Item>> of(StaffBar bar) {
    List<List<Item>> groups = new ArrayList<>();
    List<Fraction> stretches = stretches(bar.written.bar().metre());
    Object running = null;
    for (Item item : bar.items) {
      boolean joins =
          !item.sign.isRest() && item.sign.value() != null && item.sign.value().flags() > 0;
      Object key = joins ? key(bar, item, stretches) : null;
      if (joins && key.equals(running)) {
        groups.get(groups.size() - 1).add(item);
      } else {
        groups.add(new ArrayList<>(List.of(item)));
      }
      running = key;
    }
    return groups;
  }

  private static Object key(StaffBar bar, Item item, List<Fraction> stretches) {
    WrittenBar.Tuplet tuplet = item.sign.tuplet();
    if (tuplet != null) {
      // A tuplet of several beats has a beam a beat, by sounding time; one beam where its notes
      // and the beats do not meet.
      Fraction length = tuplet.length();
      boolean apart = tuplet.count() > 3 && !length.isAfter(Fraction.of(3));
      boolean many = !length.isBefore(Fraction.of(2)) && !apart;
      return many
          ? List.of(tuplet, item.sign.onset().minus(tuplet.onset()).floor())
          : List.of(tuplet);
    }
    Fraction place =
        item.sign.onset().minus(bar.written.bar().exactOnset()).plus(bar.written.bar().offset());
    if (!stretches.isEmpty()) {
      Fraction start = Fraction.ZERO;
      for (Fraction stretch : stretches) {
        if (place.isBefore(start.plus(stretch))) {
          return start;
        }
        start = start.plus(stretch);
      }
      return start;
    }
    return halfBar(bar, item.sign.beat());
  }

  /** Lengths of the groups that a metre of small values falls into; empty where beats tell. */
  private static List<Fraction> stretches(String metre) {
    String[] both = metre.split("/");
    List<Fraction> stretches = new ArrayList<>();
    if (SUM.matcher(metre).matches()) {
      for (String part : both[0].split("\\+")) {
        stretches.add(Fraction.of(4L * Integer.parseInt(part), Integer.parseInt(both[1])));
      }
      return stretches;
    }
    if (!PLAIN.matcher(metre).matches() || Integer.parseInt(both[1]) < 8) {
      return stretches;
    }
    int left = Integer.parseInt(both[0]);
    if (left % 3 == 0) {
      return stretches;
    }
    Fraction unit = Fraction.of(4, Integer.parseInt(both[1]));
    boolean twosFirst = left == 7;
    while (left > 0) {
      int size = left == 4 || left == 2 || twosFirst && left > 3 ? 2 : 3;
      size = Math.min(size, left);
      stretches.add(unit.times(size));
      left -= size;
    }
    return stretches;
  }

  private static Object halfBar(StaffBar bar, Fraction beat) {
    String metre = bar.written.bar().metre();
    if (!metre.equals("4/4") && !metre.equals("2/2") && !metre.equals("2/4")) {
      return beat;
    }
    Fraction half = beat.floor() < 2 ? Fraction.ZERO : Fraction.of(2);
    Fraction stop = half.plus(Fraction.of(2));
    for (WrittenBar.Sign sign : bar.written.signs()) {
      boolean within = !sign.beat().isBefore(half) && sign.beat().isBefore(stop);
      boolean eighths =
          sign.value() == null
              || sign.tuplet() == null
                  && sign.value().halvings() <= 3
                  && (sign.isRest() || sign.value().dots() == 0);
      if (within && !eighths) {
        return beat;
      }
    }
    return half;
  }
}
