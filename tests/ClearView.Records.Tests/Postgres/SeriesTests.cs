using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

public sealed class SeriesTests(PostgresCluster cluster) : SeriesBehaviour(new TemporaryPostgresStore(cluster));
