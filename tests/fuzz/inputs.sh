# What each fuzzer wants of its inputs. Sourced by those that run fuzzers, or build them to be run elsewhere.

# longest FUZZER: the most bytes of an input. What chooses by a byte reads no more of them, and short ones are soon read.
longest()
{
    case $1 in
    lexer | frames | table) echo 256 ;;
    sheets | diff | exports | record | import | club) echo 128 ;;
    *) echo 4096 ;;
    esac
}

# begins_from_plans FUZZER: plans are nothing to what chooses by a byte.
begins_from_plans()
{
    case $1 in
    sheets | diff | exports | record | import | club | folder | options) return 1 ;;
    esac
}

# unheard FUZZER: which of its standard streams are closed, as libFuzzer counts them. What reads command lines says at length
# what is wrong with each.
unheard()
{
    case $1 in
    options) echo 3 ;;
    *) echo 0 ;;
    esac
}
