namespace ClearView.Server.Services;

/// <summary>How large the answers of a stream are, which decides how they are sent.</summary>
internal enum AnswerSize
{
    /// <summary>Small: a flush costs more than the answer, so that several go out together where more messages are there already.</summary>
    Small,

    /// <summary>Large: one is sent while the next is worked out.</summary>
    Large,
}
