package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.List;
import org.junit.jupiter.api.Test;

class TableSchemasTest {
  @Test
  void everyColumnHasADescriptionAndAnExample() {
    for (TableSchema schema : TableSchemas.all()) {
      for (Column column : schema.columns()) {
        assertThat(column.description()).as(schema + "." + column.name()).isNotBlank();
        assertThat(column.example()).as(schema + "." + column.name()).isNotNull();
      }
    }
  }

  @Test
  void everyNumberHasAUnitAndNothingElseHas() {
    for (TableSchema schema : TableSchemas.all()) {
      for (Column column : schema.columns()) {
        assertThat(column.unit() != null)
            .as(schema + "." + column.name())
            .isEqualTo(column.type().isNumber());
      }
    }
  }

  @Test
  void everyKeyColumnIsThereAndNeverMissing() {
    for (TableSchema schema : TableSchemas.all()) {
      assertThat(schema.key()).as(schema.table()).isNotEmpty();
      for (String key : schema.key()) {
        assertThat(schema.columns().get(schema.place(key)).nullable())
            .as(schema + "." + key)
            .isFalse();
      }
    }
  }

  @Test
  void everyReferenceNamesColumnsOfTheSameTypesOnBothSides() {
    for (TableSchema schema : TableSchemas.all()) {
      for (TableSchema.Reference reference : schema.references()) {
        TableSchema other =
            reference.table().equals("statistics")
                ? StatisticsCatalogue.builtIn().schema()
                : TableSchemas.named(reference.table());
        assertThat(types(schema, reference.columns()))
            .as(schema + " to " + other)
            .isEqualTo(types(other, reference.key()));
      }
    }
  }

  private static List<ColumnType> types(TableSchema schema, List<String> columns) {
    return columns.stream().map(name -> schema.columns().get(schema.place(name)).type()).toList();
  }

  /** So that a package of tables knows how they belong together. */
  @Test
  void everyTableWithASoloOrAStatisticSaysWhereItIsDefined() {
    for (TableSchema schema : TableSchemas.all()) {
      if (schema.has("statistic")) {
        assertThat(schema.references())
            .as(schema.table())
            .anyMatch(reference -> reference.columns().equals(List.of("statistic")));
      }
      if (schema.has("solo_id") && schema.key().contains("solo_id") && !schema.has("scope")) {
        assertThat(schema.references())
            .as(schema.table())
            .anyMatch(
                reference ->
                    reference.columns().contains("solo_id") || schema.table().equals("solos"));
      }
    }
  }

  @Test
  void metadataColumnsAreNullableTextSortedByName() {
    TableSchema schema = TableSchemas.named("solos").withMetadata(List.of("style", "level"));

    List<Column> further =
        schema.columns().subList(schema.columns().size() - 2, schema.columns().size());
    assertThat(further).extracting(Column::name).containsExactly("level", "style");
    assertThat(further).allMatch(c -> c.nullable() && c.type() == ColumnType.STRING);
  }

  @Test
  void aSchemaSurvivesSerialization() throws Exception {
    TableSchema schema = TableSchemas.named("solos").withMetadata(List.of("style"));
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
      out.writeObject(schema);
    }

    Object back = new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray())).readObject();

    assertThat(((TableSchema) back).columns()).isEqualTo(schema.columns());
  }

  @Test
  void aRowRefusesAWrongType() {
    assertThatThrownBy(() -> TableRow.of(TableSchemas.named("phrases")).set("phrase_index", 1L))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid value for phrases.phrase_index: Long");
  }

  @Test
  void aRowRefusesAMissingValue() {
    assertThatThrownBy(
            () -> TableRow.of(TableSchemas.named("solo_statistics")).set("solo_id", "x").build())
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Missing value for solo_statistics.role");
  }

  @Test
  void aRowRefusesNotANumber() {
    assertThatThrownBy(
            () -> TableRow.of(TableSchemas.named("solo_statistics")).set("value", Double.NaN))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid value for solo_statistics.value: NaN");
  }

  @Test
  void aCopiedRowHasTheSameValuesButForThoseSetAnew() {
    TableRow row =
        TableRow.of(TableSchemas.named("solo_statistics"))
            .set("solo_id", "corpus/a")
            .set("role", "corpus")
            .set("file", "a")
            .set("statistic", "notes_per_bar")
            .set("value", 4.5)
            .set("n", 12)
            .build();

    assertThat(TableRow.copyOf(row).build()).isEqualTo(row);
    assertThat(TableRow.copyOf(row).set("n", 13).build().integer("n")).isEqualTo(13);
    assertThat(row.integer("n")).isEqualTo(12);
  }
}
