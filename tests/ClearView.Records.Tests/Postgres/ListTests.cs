using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

public sealed class ListTests(PostgresCluster cluster) : ListBehaviour(new TemporaryPostgresStore(cluster));
