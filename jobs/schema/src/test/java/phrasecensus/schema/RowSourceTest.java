package phrasecensus.schema;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the program writes; that it compiles, and keeps every value, is seen where it is used. */
class RowSourceTest {
  private static final String WORDS =
      """
      {"side": {"meaning": "Which side", "words": {"left-hand": "the left", "both": "either"}}}
      """;

  @Test
  void aColumnOfWordsHasItsEnumAndAnyOtherTheTypeOfItsValues() {
    String source = source(table("x", "string", true, "side"));

    assertThat(source).contains("public record TunesRow(").contains("Side x");
    assertThat(source).contains("cells.word(x);").contains("Side.of(cells.text(0))");
    assertThat(source(table("x", "integer", true, null))).contains("Integer x");
    assertThat(source(table("x", "integer", false, null))).contains("int x");
  }

  @Test
  void aColumnNamedLikeAWordOfTheLanguageIsAValue() {
    assertThat(source(table("class", "string", false, null))).contains("String classValue");
  }

  @Test
  void numeratorAndDenominatorAreSetTogether() {
    String json =
        """
        {"table": "tunes", "row": "a tune", "columns": {"fields": [
          {"name": "end_num", "type": "long", "nullable": false, "metadata": {"description": "d"}},
          {"name": "end_den", "type": "long", "nullable": false, "metadata": {"description": "d"}}]}}
        """;

    assertThat(source(json))
        .contains("public Builder end(long numerator, long denominator)")
        .contains("FractionColumns END")
        .contains("new FractionColumns(END_NUM, END_DEN)");
  }

  @Test
  void aColumnIsAConstantWithTheTypeOfItsValues() {
    assertThat(source(table("x", "string", true, "side")))
        .contains("TextColumn<Side> X")
        .contains("TABLE.word(\"x\", Side::of);");
    assertThat(source(table("x", "double", true, null))).contains("TypedColumn<Double> X");
  }

  @Test
  void wordsOfASchemaCannotEndAComment() {
    String json = table("x", "string", true, null).replace("\"d\"", "\"a */ b < c & {d} @e\"");

    assertThat(source(json))
        .contains("a *&#47; b &lt; c &amp; &#123;d&#125; &#64;e")
        .doesNotContain("a */ b");
  }

  @Test
  void anUnknownTypeEndsTheBuild() {
    assertThatThrownBy(() -> source(table("x", "timestamp", true, null)))
        .isInstanceOf(SchemaException.class)
        .hasMessage("tunes.x has the type timestamp: unknown");
  }

  @Test
  void aVocabularyThatIsNotThereEndsTheBuild() {
    assertThatThrownBy(() -> source(table("x", "string", true, "colour")))
        .isInstanceOf(SchemaException.class)
        .hasMessage("tunes.x: no such vocabulary, or the column is no text");
  }

  @Test
  void wordsForANumberEndTheBuild() {
    assertThatThrownBy(() -> source(table("x", "long", true, "side")))
        .isInstanceOf(SchemaException.class)
        .hasMessage("tunes.x: no such vocabulary, or the column is no text");
  }

  @Test
  void aColumnNamedLikeAMemberOfEveryRowEndsTheBuild() {
    assertThatThrownBy(() -> source(table("into", "string", true, null)))
        .isInstanceOf(SchemaException.class)
        .hasMessage("tunes.into is a member of every row, or there twice");
  }

  @Test
  void anEnumHasAConstantAWord() {
    assertThat(vocabularies(WORDS).get("side").source("p"))
        .contains("LEFT_HAND(\"left-hand\")")
        .contains("case \"both\" -> BOTH;");
  }

  @Test
  void twoWordsOfOneConstantEndTheBuild() {
    assertThatThrownBy(() -> vocabularies(WORDS.replace("both", "left_hand")))
        .isInstanceOf(SchemaException.class)
        .hasMessage("Vocabulary side has two words of one constant");
  }

  @Test
  void aVocabularyThatNoTableUsesEndsTheBuild(@TempDir Path folder) throws IOException {
    Files.writeString(folder.resolve("vocabularies.json"), WORDS);
    Files.writeString(folder.resolve("tunes.json"), table("x", "string", true, null));

    assertThatThrownBy(() -> RowProgram.sources(folder))
        .isInstanceOf(SchemaException.class)
        .hasMessage("No table uses vocabulary side");
  }

  @Test
  void whatNoSchemaMakesAnyMoreIsTakenAway(@TempDir Path folder) throws IOException {
    Path schemas = Files.createDirectory(folder.resolve("schemas"));
    Files.writeString(schemas.resolve("vocabularies.json"), WORDS);
    Files.writeString(schemas.resolve("tunes.json"), table("x", "string", true, "side"));
    String[] arguments = {schemas.toString(), folder.toString()};
    RowProgram.main(arguments);
    Path written = folder.resolve("phrasecensus/tables/row");
    Files.writeString(written.resolve("OldRow.java"), "");

    RowProgram.main(arguments);

    try (var files = Files.list(written)) {
      assertThat(files.map(file -> file.getFileName().toString()))
          .containsExactlyInAnyOrder("package-info.java", "Side.java", "TunesRow.java");
    }
  }

  private static String table(String column, String type, boolean nullable, String vocabulary) {
    return "{\"table\": \"tunes\", \"row\": \"a tune\", "
        + (vocabulary == null
            ? ""
            : "\"vocabularies\": {\"" + column + "\": \"" + vocabulary + "\"}, ")
        + "\"columns\": {\"fields\": [{\"name\": \""
        + column
        + "\", \"type\": \""
        + type
        + "\", \"nullable\": "
        + nullable
        + ", \"metadata\": {\"description\": \"d\"}}]}}";
  }

  private static String source(String json) {
    return new RowSource("p", read(json), vocabularies(WORDS)).text();
  }

  private static Map<String, Vocabulary> vocabularies(String json) {
    return Vocabulary.all(read(json));
  }

  private static JsonNode read(String json) {
    try {
      return new ObjectMapper().readTree(json);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
