/* make_call_filter.c - writes the filter of src/cli/call_filter.h, as C, to standard output. The build runs it: libseccomp
 * puts the filter together there, once, and not each time that the program starts. */
#include <errno.h>
#include <linux/filter.h>
#include <seccomp.h>
#include <stdio.h>

/* Connections; other programs; other processes' memory; another view of the machine; doors that have let others out. */
static const int barred[] = {
    SCMP_SYS(socket), SCMP_SYS(socketpair), SCMP_SYS(connect), SCMP_SYS(bind), SCMP_SYS(listen),
    SCMP_SYS(execve), SCMP_SYS(execveat),
    SCMP_SYS(ptrace), SCMP_SYS(process_vm_readv), SCMP_SYS(process_vm_writev), SCMP_SYS(pidfd_getfd),
    SCMP_SYS(unshare), SCMP_SYS(setns), SCMP_SYS(mount), SCMP_SYS(chroot), SCMP_SYS(open_by_handle_at),
    SCMP_SYS(io_uring_setup), SCMP_SYS(bpf), SCMP_SYS(perf_event_open), SCMP_SYS(userfaultfd), SCMP_SYS(keyctl),
};

static int fail(const char *what)
{
    fprintf(stderr, "make_call_filter: %s\n", what);
    return 1;
}

/* The filter as bytes in a file that nobody else sees. */
static FILE *filter_bytes(void)
{
    scmp_filter_ctx filter = seccomp_init(SCMP_ACT_ALLOW);
    FILE *bytes = tmpfile();
    int good = filter && bytes;
    for (size_t i = 0; i < sizeof barred / sizeof *barred && good; i++)
        good = seccomp_rule_add(filter, SCMP_ACT_ERRNO(EPERM), barred[i], 0) == 0;
    good = good && seccomp_export_bpf(filter, fileno(bytes)) == 0;
    if (filter)
        seccomp_release(filter);
    if (!good && bytes) {
        fclose(bytes);
        bytes = NULL;
    }
    return bytes;
}

int main(void)
{
    struct sock_filter step;
    FILE *bytes = filter_bytes();
    if (!bytes)
        return fail("libseccomp cannot make the filter");
    rewind(bytes);
    puts("#include \"cli/call_filter.h\"\n\nstatic struct sock_filter steps[] = {");
    while (fread(&step, sizeof step, 1, bytes) == 1)
        printf("    {0x%02x, %u, %u, 0x%08xu},\n", step.code, step.jt, step.jf, step.k);
    puts("};\n\nconst struct sock_fprog call_filter = {sizeof steps / sizeof *steps, steps};");
    int lost = ferror(bytes) || fflush(stdout);
    fclose(bytes);
    return lost ? fail("the filter cannot be written") : 0;
}
