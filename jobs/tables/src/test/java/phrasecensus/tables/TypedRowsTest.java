package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import phrasecensus.tables.row.BarsRow;
import phrasecensus.tables.row.DepartureVerdict;
import phrasecensus.tables.row.Role;
import phrasecensus.tables.row.SoloStatisticsRow;
import phrasecensus.tables.row.SolosRow;

/** The records that the build writes, held against the schemas as the program reads them. */
class TypedRowsTest {
  static List<TableSchema> schemas() {
    return TableSchemas.all();
  }

  @ParameterizedTest
  @MethodSource("schemas")
  void theExampleOfEveryTableGoesThroughItsRecordUnchanged(TableSchema schema) throws Exception {
    TableRow example = example(schema, false);

    Row row = table(schema).row(example.cells());

    assertThat(row.table()).isEqualTo(schema.table());
    assertThat(TableRow.of(schema, row)).isEqualTo(example);
  }

  @ParameterizedTest
  @MethodSource("schemas")
  void whatMayBeMissingGoesThroughItsRecordAsMissing(TableSchema schema) throws Exception {
    TableRow bare = example(schema, true);

    assertThat(TableRow.of(schema, table(schema).row(bare.cells()))).isEqualTo(bare);
  }

  @ParameterizedTest
  @MethodSource("schemas")
  void aRecordHasTheColumnsOfItsTableInTheirOrder(TableSchema schema) throws Exception {
    List<String> components =
        Arrays.stream(record(schema).getRecordComponents())
            .map(component -> component.getName().toLowerCase(java.util.Locale.ROOT))
            .collect(Collectors.toList());
    components.remove("metadata");

    assertThat(components)
        .isEqualTo(
            schema.columns().stream()
                .map(column -> column.name().replace("_", ""))
                .map(name -> name.equals("class") ? "classvalue" : name)
                .toList());
  }

  @Test
  void columnsThatAStudyAddsComeInTheOrderOfTheirNames() {
    TableSchema schema = TableSchemas.named("solos").withMetadata(List.of("style", "level"));
    TreeMap<String, String> metadata = new TreeMap<>();
    metadata.put("style", "headland bop");
    metadata.put("level", null);
    SolosRow row =
        SolosRow.TABLE
            .row(example(TableSchemas.named("solos"), false).cells())
            .copy()
            .metadata(metadata)
            .build();

    TableRow generic = TableRow.of(schema, row);

    assertThat(generic.text("style")).isEqualTo("headland bop");
    assertThat(generic.isMissing("level")).isTrue();
    assertThat(SolosRow.TABLE.row(generic.cells())).isEqualTo(row);
  }

  /** A typed row holds them in words, as the metadata do; the table has values. */
  @Test
  void columnsThatAStudyAddsKeepTheirTypes() {
    TableSchema schema =
        TableSchemas.named("solos")
            .withMetadata(
                Map.of(
                    "recorded", ColumnType.DATE,
                    "take", ColumnType.DOUBLE,
                    "year", ColumnType.LONG));
    TableRow generic =
        TableRow.of(
            schema,
            SolosRow.TABLE
                .row(example(TableSchemas.named("solos"), false).cells())
                .copy()
                .metadata(
                    new TreeMap<>(Map.of("recorded", "1958-03-02", "take", "1.5", "year", "1958")))
                .build());

    assertThat(generic.value("recorded")).isEqualTo(LocalDate.of(1958, 3, 2));
    assertThat(generic.value("take")).isEqualTo(1.5);
    assertThat(generic.value("year")).isEqualTo(1958L);
    assertThat(SolosRow.TABLE.row(generic.cells()).metadata())
        .containsEntry("recorded", "1958-03-02")
        .containsEntry("take", "1.5")
        .containsEntry("year", "1958");
  }

  @Test
  void aRowWithoutANumberThatMayNotBeMissingIsRefused() {
    SoloStatisticsRow.Builder row =
        SoloStatisticsRow.builder()
            .soloId("corpus/a")
            .role(Role.CORPUS)
            .file("a")
            .statistic("notes_per_bar");

    assertThatThrownBy(row::build)
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Missing value for solo_statistics.n");
    assertThat(row.n(0).build().value()).isNull();
  }

  @Test
  void aRowWithoutATextThatMayNotBeMissingIsRefused() {
    assertThatThrownBy(() -> SoloStatisticsRow.builder().n(1).build())
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Missing value for solo_statistics.solo_id");
  }

  @Test
  void aNumberThatIsNoneIsRefused() {
    SoloStatisticsRow.Builder row =
        SoloStatisticsRow.builder()
            .soloId("corpus/a")
            .role(Role.CORPUS)
            .file("a")
            .statistic("notes_per_bar")
            .n(1)
            .oddValue(Double.NaN);

    assertThatThrownBy(row::build)
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid value for solo_statistics.odd_value: NaN");
  }

  @Test
  void aWordThatIsInNoVocabularyIsRefused() {
    assertThatThrownBy(() -> DepartureVerdict.of("upward"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid word: 'upward' is no departure verdict");
    assertThat(DepartureVerdict.of("no-norm")).isEqualTo(DepartureVerdict.NO_NORM);
    assertThat(DepartureVerdict.of(null)).isNull();
  }

  @Test
  void aRowOfAnotherTableHasNoGenericFormUnderASchema() {
    Row row = SoloStatisticsRow.TABLE.row(example(SoloStatisticsRow.TABLE.schema(), false).cells());

    assertThatThrownBy(() -> TableRow.of(TableSchemas.named("norms"), row))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageStartingWith("Invalid row of solo_statistics for norms");
  }

  @Test
  void aColumnGivesItsValueInItsOwnType() {
    TableRow row = example(BarsRow.TABLE.schema(), false);

    assertThat(row.get(BarsRow.ROLE)).isEqualTo(Role.of(row.text("role")));
    assertThat(row.get(BarsRow.BAR_INDEX)).isEqualTo(row.integer("bar_index"));
    List<Long> onset =
        BarsRow.ONSET.in(row, (numerator, denominator) -> List.of(numerator, denominator));
    assertThat(onset)
        .isEqualTo(List.of(row.longInteger("onset_num"), row.longInteger("onset_den")));
    assertThat(example(BarsRow.TABLE.schema(), true).get(BarsRow.SECTION)).isNull();
  }

  @Test
  void aColumnOfAnotherTableIsRefused() {
    TableRow row = example(BarsRow.TABLE.schema(), false);

    assertThatThrownBy(() -> row.get(SolosRow.ROLE))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid row of bars for solos.role");
  }

  @Test
  void aColumnThatWasNotReadIsRefused() {
    TableSchema read = BarsRow.TABLE.schema().only(List.of("solo_id"));
    TableRow row = TableRow.of(read, new Object[] {"corpus/a"});

    assertThat(row.get(BarsRow.SOLO_ID)).isEqualTo("corpus/a");
    assertThat(BarsRow.METRE.isIn(row)).isFalse();
    assertThatThrownBy(() -> row.get(BarsRow.METRE)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void rowsReadWithoutAColumnMakeNoRecords() {
    TableSchema read = BarsRow.TABLE.schema().only(List.of("solo_id"));
    List<TableRow> rows = List.of(TableRow.of(read, new Object[] {"corpus/a"}));

    assertThatThrownBy(() -> source(rows).rows(BarsRow.TABLE))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot use table bars: Invalid columns for rows of bars. Make the study again.");
  }

  @Test
  void rowsAreAskedForByTheWordsOfAColumn() {
    TableRow corpus = bar("corpus/a", "corpus");
    TableRow student = bar("student/b", "student");
    TableSource bars = source(List.of(corpus, student));

    assertThat(bars.rows(BarsRow.TABLE, BarsRow.ROLE.is(Role.STUDENT)))
        .extracting(BarsRow::soloId)
        .containsExactly("student/b");
    assertThat(
            bars.rows(
                BarsRow.TABLE,
                BarsRow.ROLE.is(Role.CORPUS),
                BarsRow.SOLO_ID.isOneOf(List.of("corpus/a", "student/b"))))
        .extracting(BarsRow::soloId)
        .containsExactly("corpus/a");
    assertThat(bars.rows(BarsRow.TABLE, BarsRow.SOLO_ID.isOneOf(List.of()))).isEmpty();
    try (Stream<TableRow> some =
        bars.stream(BarsRow.TABLE, List.of(BarsRow.ONSET), BarsRow.ROLE.is(Role.STUDENT))) {
      assertThat(some).containsExactly(student);
    }
  }

  private static TableRow bar(String soloId, String role) {
    return TableRow.copyOf(example(BarsRow.TABLE.schema(), false))
        .set("solo_id", soloId)
        .set("role", role)
        .build();
  }

  private static TableSource source(List<TableRow> rows) {
    return (table, equal) ->
        rows.stream()
            .filter(
                row ->
                    equal.entrySet().stream()
                        .allMatch(one -> one.getValue().equals(row.text(one.getKey()))))
            .toList();
  }

  private static Class<?> record(TableSchema schema) throws ClassNotFoundException {
    String name =
        Arrays.stream(schema.table().split("_"))
            .map(
                part -> part.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + part.substring(1))
            .collect(Collectors.joining());
    return Class.forName("phrasecensus.tables.row." + name + "Row");
  }

  private static Table<?> table(TableSchema schema) throws ReflectiveOperationException {
    return (Table<?>) record(schema).getField("TABLE").get(null);
  }

  /** The row of the examples of all columns. */
  private static TableRow example(TableSchema schema, boolean bare) {
    TableRow.Builder row = TableRow.of(schema);
    for (Column column : schema.columns()) {
      String example = column.example();
      Object value =
          switch (column.type()) {
            case STRING -> example;
            case INTEGER -> Integer.valueOf(example);
            case LONG -> Long.valueOf(example);
            case DOUBLE -> Double.valueOf(example);
            case BOOLEAN -> Boolean.valueOf(example);
            case DATE -> LocalDate.parse(example);
            case STRING_ARRAY -> elements(example);
            case INTEGER_ARRAY -> elements(example).stream().map(Integer::valueOf).toList();
          };
      row.set(column.name(), bare && column.nullable() ? null : value);
    }
    return row.build();
  }

  private static List<String> elements(String list) {
    return List.of(list.replaceAll("[\\[\\]\" ]", "").split(","));
  }
}
