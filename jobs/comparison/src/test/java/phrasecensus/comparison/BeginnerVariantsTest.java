package phrasecensus.comparison;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import phrasecensus.comparison.InventedBeginners.Recipe;
import phrasecensus.comparison.InventedBeginners.Setting;
import phrasecensus.tables.AimsDefinition;

/**
 * What is said first of invented beginners' solos in metres, keys, clefs, lengths and notations of
 * every sort. Notes at random lie in the key by chance now and then, so those recipes are asked for
 * nineteen in twenty; a scale two signatures away shares five of seven notes with the right one, so
 * that recipe is asked for three in four; all others for every one.
 */
class BeginnerVariantsTest {
  private static final int[][] METRES = {{4, 4}, {3, 4}, {6, 8}, {5, 4}, {2, 4}, {12, 8}};
  private static final int[] BARS = {8, 12, 16, 24, 32};
  private static final int[][] INSTRUMENTS = {{0, 0}, {-2, -1}, {-9, -5}, {-14, -8}, {-7, -4}};

  private static Setting setting(Random random, Recipe recipe) {
    int[] metre = METRES[random.nextInt(METRES.length)];
    int[] instrument = INSTRUMENTS[random.nextInt(INSTRUMENTS.length)];
    boolean minor = random.nextInt(4) == 0;
    int bars = BARS[random.nextInt(BARS.length)];
    if (metre[0] == 2) {
      bars = 2 * bars;
    }
    return new Setting(
        metre[0],
        metre[1],
        recipe == Recipe.TOO_SHORT ? 1 : bars,
        new int[] {-5, -4, -3, -2, -1, 1, 2, 3, 4}[random.nextInt(9)],
        minor,
        recipe == Recipe.WEAK_LANDINGS || random.nextBoolean(),
        instrument[0],
        instrument[1],
        instrument[0] == 0 && random.nextBoolean(),
        new int[] {0, 60, 110, 240}[random.nextInt(4)],
        metre[1] == 4 && random.nextInt(4) == 0,
        random.nextInt(4) == 0,
        random.nextInt(4) == 0);
  }

  @Test
  void firstThingSaidIsThatOfTheRecipe() {
    Map<Recipe, List<String>> wrong = new EnumMap<>(Recipe.class);
    Map<Recipe, Integer> tried = new EnumMap<>(Recipe.class);
    Map<String, byte[]> files = new TreeMap<>();
    Map<String, Setting> settings = new TreeMap<>();
    Random random = new Random(20260501);
    for (Recipe recipe : Recipe.values()) {
      for (int i = 0; i < 40; i++) {
        String file = recipe + "-" + i + ".musicxml";
        Setting setting = setting(random, recipe);
        settings.put(file, setting);
        files.put(file, InventedBeginners.score(recipe, setting, random.nextLong()));
      }
    }

    Lessons lessons = Lessons.of(files, Map.of(), AimsDefinition.DEFAULT);

    for (String file : files.keySet()) {
      Recipe recipe = Recipe.valueOf(file.replaceAll("-.*", ""));
      tried.merge(recipe, 1, Integer::sum);
      String first = lessons.first(file);
      if (!first.equals(recipe.first)) {
        wrong
            .computeIfAbsent(recipe, each -> new ArrayList<>())
            .add(file + " " + first + " " + settings.get(file) + " " + lessons.told(file));
      }
    }
    for (Recipe recipe : Recipe.values()) {
      int allowed =
          switch (recipe) {
            case OUTSIDE, OUTSIDE_UNBROKEN, WRONG_SCALE -> tried.get(recipe) / 20;
            default -> 0;
          };
      assertThat(wrong.getOrDefault(recipe, List.of()))
          .as("%s of %s", recipe, tried.get(recipe))
          .hasSizeLessThanOrEqualTo(allowed);
    }
  }
}
